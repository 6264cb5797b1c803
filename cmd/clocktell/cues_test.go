package main

import (
	"encoding/json"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/testdata/demo"
)

// takes records the demo's show for an editor: a channel that is held back, first by 12 and
// later by 4 s, and two recordings, marked as the producer does it.
func takes(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	c := config.Default()
	c.Journal.Dir = dir
	c.Feeds = []config.Feed{config.DefaultFeed()}
	c.Feeds[0].Name, c.Feeds[0].URL = "arena", "http://127.0.0.1:1/"
	tb := relay.NewTimebaseAt(demoStart, 1)
	kept, _, err := openJournal(t.Context(), c, planOf(c, tb), tb, slog.New(slog.DiscardHandler), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	hall, err := newArena(demo.FS, tb.Now)
	if err != nil {
		t.Fatal(err)
	}
	in, out, done := make(chan relay.Event), make(chan relay.Event, 64), make(chan error)
	go func() { done <- kept.Run(t.Context(), in, out) }()
	entries := map[int]relay.ByHand{
		3: {Act: relay.ActHold, Text: "air", For: 12 * time.Second}, 700: {Act: relay.ActHold, Text: "air", For: 4 * time.Second},
		60: {Act: relay.ActRecording, Timecode: "10:00:00:00"}, 900: {Act: relay.ActRecording, Mark: demoStart.Add(890 * time.Second)},
	}
	intake := relay.NewIntake("arena")
	for second := range 1500 {
		at := demoStart.Add(time.Duration(second) * time.Second)
		in <- intake.Read(at, hall.text(0, time.Duration(second)*time.Second))
		<-out
		if e, ok := entries[second]; ok {
			e.At, e.ID = at, at.String()
			in <- e
			<-out
		}
	}
	close(in)
	if err := <-done; err != nil {
		t.Fatal(err)
	}
	return dir
}

// TestCuesOfDemo: what an editor gets of the demo's show, by its own marks. The W3C's reader
// finds no fault in the chapters, csv-parse reads the list, and a cue that the held-back
// channel has stands so much later there as it was held back then.
func TestCuesOfDemo(t *testing.T) {
	show, out := takes(t), filepath.Join(t.TempDir(), "cues")
	code, stdout, stderr := call(t, "cues", "--show", show, "--out", out, "--rate", "29.97")
	if code != exitFine || stderr != "" {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	rows := make(map[string][][]string)
	for _, channel := range []string{"", "-air"} {
		for _, take := range []string{"-recording1", "-recording2"} {
			name := channel + take
			for _, file := range []string{"chapters" + name + ".vtt", "cues" + name + ".csv", "cues" + name + "-29.97fps.edl"} {
				if _, err := os.Stat(filepath.Join(out, file)); err != nil || !strings.Contains(stdout, file) {
					t.Fatalf("%s: %v; told %s", file, err, stdout)
				}
			}
			var vtt struct {
				Errors []string
				Cues   []struct{ Text string }
			}
			readCues(t, "vtt", filepath.Join(out, "chapters"+name+".vtt"), &vtt)
			var list [][]string
			readCues(t, "csv", filepath.Join(out, "cues"+name+".csv"), &list)
			if len(vtt.Errors) > 0 || len(vtt.Cues) < 4 || vtt.Cues[0].Text != "Board 1: Quintanilha – Tveiterås" || len(list) < 15 {
				t.Errorf("%s: %d cues in the list, chapters %+v", name, len(list), vtt)
			}
			rows[name] = list[1:]
		}
	}
	if code, _, stderr := call(t, "cues", "--show", show, "--out", out, "--hold", "booth"); code != exitFailed || !strings.Contains(stderr, `no group "booth" was held back in this show; there are ["air"]`) {
		t.Errorf("a group that is none: exit %d, %s", code, stderr)
	}
	checkLater(t, rows["-recording1"], rows["-air-recording1"])
	if first := rows["-recording1"][0][0]; !strings.HasPrefix(first, "10:0") {
		t.Errorf("the first recording begins with %s", first)
	}
	if first := rows["-recording2"][0]; !strings.HasPrefix(first[0], "00:00:") || first[2] < "0:14:50" {
		t.Errorf("the second recording begins with %q", first)
	}
}

// checkLater wants the cues of the held-back channel 12 s after the others up to the change
// to 4 s, and 4 s after them behind it, when it has caught up.
func checkLater(t *testing.T, live, held [][]string) {
	t.Helper()
	found := map[time.Duration]int{}
	for _, row := range live {
		i := slices.IndexFunc(held, func(h []string) bool { return slices.Equal(h[2:], row[2:]) })
		if i < 0 {
			continue // it is in the next recording there
		}
		a, errA := time.Parse("2006-01-02T15:04:05.000Z07:00", row[1])
		b, errB := time.Parse("2006-01-02T15:04:05.000Z07:00", held[i][1])
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		want := 12 * time.Second
		if a.After(demoStart.Add(702 * time.Second)) {
			want = 4 * time.Second
		}
		if a.Before(demoStart.Add(688*time.Second)) || a.After(demoStart.Add(702*time.Second)) {
			found[want]++
			if b.Sub(a) != want {
				t.Errorf("%q is %v later on the channel that is held back, want %v", row, b.Sub(a), want)
			}
		}
	}
	if found[12*time.Second] < 8 || found[4*time.Second] < 3 {
		t.Errorf("only %v cues were compared", found)
	}
}

// readCues lets readers that others wrote read a file.
func readCues(t *testing.T, kind, file string, into any) {
	t.Helper()
	if _, err := os.Stat("../../static/lint/node_modules/webvtt-parser"); err != nil {
		const need = "the readers are missing; run npm ci --prefix static/lint"
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatalf("%s: %v", need, err)
		}
		t.Skip(need)
	}
	read, err := tool(t, "node", "../../relay/cue/testdata/read.mjs", kind, file)
	if err == nil {
		err = json.Unmarshal([]byte(read), into)
	}
	if err != nil {
		t.Fatalf("%s: %v: %.300s", file, err, read)
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
}
