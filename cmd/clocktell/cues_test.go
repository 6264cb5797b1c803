package main

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// TestCuesOfDemo: what an editor gets of the demo's two games, for the programme and for a
// channel that was held back by 12 s, the recording begun in the middle.
func TestCuesOfDemo(t *testing.T) {
	show, out := record(t), filepath.Join(t.TempDir(), "cues")
	mark := demoStart.Add(10 * time.Minute)
	code, stdout, stderr := call(t, "cues", "--show", show, "--out", out, "--rate", "29.97", "--start-mark", mark.Format(time.RFC3339), "--start-timecode", "10:00:00;00")
	if code != exitFine || stderr != "" {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	for _, name := range []string{"chapters.vtt", "cues.csv", "cues-29.97fps.edl"} {
		text, err := os.ReadFile(filepath.Join(out, name))
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(stdout, name) {
			t.Errorf("%s is not told of in %s", name, stdout)
		}
		if testing.Verbose() {
			t.Logf("%s\n%s", name, text)
		}
	}
	file, err := os.Open(filepath.Join(out, "cues.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 10 || !strings.HasPrefix(rows[1][0], "10:") || slices.ContainsFunc(rows[1:], func(r []string) bool { return r[1] < mark.In(time.Local).Format("2006-01-02T15:04:05") }) {
		t.Errorf("%d rows, the first %q", len(rows), rows[1])
	}
}

func TestCuesAskedWrongly(t *testing.T) {
	for args, want := range map[string]string{
		"cues":                               "--out DIR",
		"cues --out x --rate 26":             `"26" is no frame rate; there are 23.976, 24, 25`,
		"cues --out x --start-mark noon":     `"noon" is no time`,
		"cues --out x --start-timecode 1:00": "goes with --start-mark",
		"cues --out x --least -1s":           "less than nothing",
		"cues --out x --start-mark 2026-11-26T19:00:00Z --start-timecode 10:00:00;00": "is drop-frame, which 25 is not",
	} {
		if code, _, stderr := call(t, strings.Fields(args)...); code != exitUsage || !strings.Contains(stderr, want) {
			t.Errorf("%s: exit %d, %s; want %q", args, code, stderr, want)
		}
	}
	if code, _, stderr := call(t, "cues", "--show", t.TempDir(), "--out", t.TempDir()); code != exitFailed || !strings.Contains(stderr, "no show") {
		t.Errorf("an empty folder: exit %d, %s", code, stderr)
	}
	if code, _, stderr := call(t, "cues", "--show", record(t), "--out", t.TempDir(), "--hold", "air"); code != exitFailed || !strings.Contains(stderr, `no group "air" was held back`) {
		t.Errorf("a group that is none: exit %d, %s", code, stderr)
	}
}
