package main

import (
	"slices"
	"strings"
	"testing"

	"clocktell/relay/relaytest"
)

// passedBy lets in the shortest mate there is, which the position tells by itself, and passes it by.
var passedBy = relaytest.Game{White: "Aune, Siri", Black: "Birk, Ole", Moves: "f3 e5 g4 d6 d3"}

// TestPromptsWithEngine: with a real engine the list has what it must say of blunders that
// anybody sees, twice the same to the letter, and --kind leaves all else out.
func TestPromptsWithEngine(t *testing.T) {
	path := realEngine(t)
	file := write(t, "blunders.pgn", passedBy.PGN())
	args := []string{"prompts", file, "--engine", path, "--kind", "engine"}
	code, list, stderr := call(t, args...)
	if code != exitFine || !strings.Contains(stderr, "1 of 1 game judged") {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	rows := parsed(t, list)
	for _, want := range []struct{ move, text, evidence string }{
		{"2...d6", "Birk has missed a mate in one, says the engine.", "2...Qh4#"},
	} {
		if !slices.ContainsFunc(rows, func(row []string) bool {
			return row[1] == want.move && row[3] == "engine" && row[5] == want.text && strings.Contains(row[6], want.evidence)
		}) {
			t.Errorf("%+v is not listed:\n%s", want, list)
		}
	}
	for _, row := range rows {
		if row[3] != "engine" {
			t.Errorf("%q is listed", row)
		}
	}
	if _, again, _ := call(t, args...); again != list {
		t.Errorf("again the list is\n%s\nwas\n%s", again, list)
	}
}

// TestPromptsWithoutTheEngine: an engine that is not there is told before anything is played,
// and so are nodes too few for any opinion.
func TestPromptsWithoutTheEngine(t *testing.T) {
	file := write(t, "blunders.pgn", passedBy.PGN())
	if code, stdout, stderr := call(t, "prompts", file, "--engine", "no/such/engine"); code != exitFailed || stdout != "" || !strings.Contains(stderr, "no/such/engine") {
		t.Errorf("exit %d, %q, %q", code, stdout, stderr)
	}
	if code, _, stderr := call(t, "prompts", file, "--nodes", "999"); code != exitUsage || !strings.Contains(stderr, "1000 or more") {
		t.Errorf("exit %d, %q", code, stderr)
	}
}
