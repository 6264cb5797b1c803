package main

import (
	"encoding/json"
	"strings"
	"testing"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/journal"
)

// TestLanguagePlanned: the language of the configuration is that of the plan, and a show
// is played again in the language it was recorded in.
func TestLanguagePlanned(t *testing.T) {
	c, err := config.Parse("f", "[show]\nlanguage = \"de\"\n[[feed]]\nname = \"a\"\nfile = \"x.pgn\"\n", func(string) (string, bool) { return "", false })
	if err != nil {
		t.Fatal(err)
	}
	plan := planOf(c, relay.NewTimebase(1))
	if plan.Language != "de" {
		t.Errorf("planned in %q, want de", plan.Language)
	}
	text, err := json.Marshal(plan)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := recordedPlan(&journal.Recording{Plan: string(text)}); err != nil || got.Language != "de" {
		t.Errorf("recorded in %q, %v", got.Language, err)
	}
}

// TestLanguageRecorded: recordings of versions without languages are English, and one of a
// language that this version lacks is refused.
func TestLanguageRecorded(t *testing.T) {
	if got, err := recordedPlan(&journal.Recording{Plan: `{"Title": "Old"}`}); err != nil || got.Language != "" {
		t.Errorf("%q, %v", got.Language, err)
	}
	_, err := recordedPlan(&journal.Recording{File: "show.db", Plan: `{"Language": "xx"}`})
	if err == nil || !strings.HasPrefix(err.Error(), `show.db: the plan of the show: "xx" is no language`) {
		t.Errorf("%v", err)
	}
}

// TestDemoLanguage: the flag of the demo is the language of its show.
func TestDemoLanguage(t *testing.T) {
	tb := relay.NewTimebase(1)
	for _, code := range []string{"en", "de"} {
		if got := planOf(demoConfig("http://127.0.0.1/", "", demoShow{language: code}, tb), tb).Language; got != code {
			t.Errorf("--language %s plans %q", code, got)
		}
	}
}
