package main

import (
	"errors"
	"os"
	"strings"
	"testing"

	"clocktell/relay/config"
	"clocktell/relay/engine/enginetest"
)

// TestCheckEngine: check starts the engines that are set, and tells of one that is not.
func TestCheckEngine(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	set := func(command string, args ...string) config.Engine {
		e := config.Default().Engine
		e.Command, e.Args = command, args
		return e
	}
	sound := set(self, enginetest.Args("slow to greet", t.TempDir(), 0)...)
	dead := set(self, enginetest.Args("dies at start", t.TempDir(), 0)...)
	for _, row := range []struct {
		name          string
		first, second config.Engine
		fine          bool
		want          []string
	}{
		{"one", sound, set(""), true, []string{`calls itself "Fault Engine" and is ready, with 1 thread(s) and 64 MB`}},
		{"two, and the second dies", sound, dead, false, []string{`calls itself "Fault Engine"`, "under [second_engine]", "the engine has ended: exit status 7"}},
		{"none of that name", set("no-such-engine-anywhere"), set(""), false, []string{"no-such-engine-anywhere: ", "under [engine]", "set command to its path"}},
	} {
		k := &checker{config: config.Config{Engine: row.first, Second: row.second}}
		k.checkEngines(t.Context())
		text, fine := "", true
		for _, f := range k.report.Checks {
			text += f.Text + " " + f.Do + "\n"
			fine = fine && f.State == stateFine
		}
		if fine != row.fine {
			t.Errorf("%s: fine %v, want %v", row.name, fine, row.fine)
		}
		for _, want := range row.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q does not hold %q", row.name, text, want)
			}
		}
	}
}

// TestCheckWithoutEngine: none is in order, and the way to have one is told.
func TestCheckWithoutEngine(t *testing.T) {
	only := func(there string) func(string) (string, error) {
		return func(name string) (string, error) {
			if name != there {
				return "", errors.New("not there")
			}
			return "/found/" + name, nil
		}
	}
	for there, want := range map[string]string{
		usualEngines[0]: `there is one on this machine, set command = "/found/` + usualEngines[0] + `" under [engine]`,
		usualEngines[1]: "set command = \"/found/" + usualEngines[1],
		"another":       "none found on the path; install one that speaks UCI",
	} {
		if got := noEngine(usualEngine(only(there))); !strings.Contains(got.Text, want) || got.State != stateFine {
			t.Errorf("%s: %+v, want %q", there, got, want)
		}
	}
}
