package cue

import (
	"encoding/json"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// readBy lets readers that others wrote, of npm, read a text, and takes what they tell. Without
// them the test is skipped, but where CLOCKTELL_TESTS=all (as in .ci/run) it fails.
func readBy(t *testing.T, kind, text string, into any) {
	t.Helper()
	_, err := exec.LookPath("node")
	if err == nil {
		_, err = os.Stat("../../static/lint/node_modules/webvtt-parser")
	}
	if err != nil {
		const need = "the readers are missing; run npm ci --prefix static/lint"
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatalf("%s: %v", need, err)
		}
		t.Skip(need)
	}
	read := exec.CommandContext(t.Context(), "node", "testdata/read.mjs", kind)
	read.Stdin = strings.NewReader(text)
	read.Stderr = os.Stderr
	out, err := read.Output()
	if err != nil {
		t.Fatalf("%s: %v", kind, err)
	}
	if err := json.Unmarshal(out, into); err != nil {
		t.Fatalf("%s tells %.200s: %v", kind, out, err)
	}
}
