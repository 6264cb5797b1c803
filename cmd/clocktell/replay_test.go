package main

import (
	"bytes"
	"context"
	"errors"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"clocktell/overlay"
	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/journal"
	"clocktell/testdata/demo"
)

// record runs a show of the demo's two games, with entries by hand, into a journal and
// returns its folder.
func record(t *testing.T) string {
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
	in, out := make(chan relay.Event), make(chan relay.Event, 64)
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error)
	go func() { done <- kept.Run(ctx, in, out) }()
	intake := relay.NewIntake("arena")
	for second := range 1500 {
		at := demoStart.Add(time.Duration(second) * time.Second)
		in <- intake.Read(at, hall.text(0, time.Duration(second)*time.Second))
		<-out
		if second%200 == 150 {
			in <- relay.ByHand{At: at, ID: at.String(), Board: 1, Act: relay.ActName, Side: "white", Text: "Name " + at.Format(time.TimeOnly)}
			<-out
			in <- relay.AtPanel{At: at, ID: "note " + at.String(), Who: "Ada", Act: relay.PanelNote, Text: "note " + at.Format(time.TimeOnly)}
			<-out
		}
	}
	cancel()
	if err := <-done; !errors.Is(err, nil) {
		t.Fatal(err)
	}
	return dir
}

var demoStart = time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)

// TestSameRecordingSameSnapshot: a recording replayed twice gives the same bytes, and
// so does one that is played through the loop as fast as it goes.
func TestSameRecordingSameSnapshot(t *testing.T) {
	dir := record(t)
	var snapshots [][]byte
	for _, name := range []string{"one.json", "two.json"} {
		file := filepath.Join(t.TempDir(), name)
		if code, _, stderr := call(t, "replay", dir, "--snapshot", file); code != exitFine {
			t.Fatalf("exit %d: %s", code, stderr)
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		snapshots = append(snapshots, data)
	}
	if !bytes.Equal(snapshots[0], snapshots[1]) {
		t.Error("two replays of the same recording differ")
	}
	if n := bytes.Count(snapshots[0], []byte(`"san"`)); n < 80 {
		t.Errorf("%d plies in the snapshot: it shows too little", n)
	}
	played := playWhole(t, dir)
	if at := differAt(snapshots[0], played); at != "" {
		t.Errorf("played through the loop the show is another one: %s", at)
	}
}

// playWhole plays a recording through a running relay and returns its snapshot.
func playWhole(t *testing.T, dir string) []byte {
	t.Helper()
	recording, err := journal.Read(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer recording.Close()
	plan, err := recordedPlan(recording)
	if err != nil {
		t.Fatal(err)
	}
	tb := relay.NewTimebaseAt(recording.First, 1000)
	r := relay.New(relay.NewShow(plan, recording.First), tb)
	events := make(chan relay.Event)
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error)
	go func() { done <- r.Run(ctx, events) }()
	if err := playEvents(ctx, recording, tb, events); err != nil {
		t.Fatal(err)
	}
	cancel()
	if err := <-done; err != nil {
		t.Fatal(err)
	}
	return overlay.Snapshot(r.Show())
}

// differAt returns the first lines that differ, or "".
func differAt(a, b []byte) string {
	x, y := strings.Split(string(a), "\n"), strings.Split(string(b), "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return strings.Join(x[max(0, i-3):i+1], "\n") + "\nnot\n" + y[i]
		}
	}
	if len(x) != len(y) {
		return "one is longer"
	}
	return ""
}

// TestReplayPlays: the verb itself serves a recording and plays it to its end.
func TestReplayPlays(t *testing.T) {
	code, stdout, stderr := call(t, "replay", record(t), "--listen", "127.0.0.1:0", "--speed", "1000", "--once")
	if code != exitFine || !strings.Contains(stdout, "/panel") {
		t.Errorf("exit %d\n%s%s", code, stdout, stderr)
	}
}

func TestReplayErrors(t *testing.T) {
	text := filepath.Join(t.TempDir(), "games.pgn")
	if err := os.WriteFile(text, []byte("1. e4 *"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"replay"}, exitUsage, "needs a FILE"},
		{[]string{"replay", text, "--speed", "0"}, exitUsage, "out of range"},
		{[]string{"replay", text, "--from", "-1s"}, exitUsage, "before the start"},
		{[]string{"replay", filepath.Join(t.TempDir(), "nothing.db")}, exitFailed, "no such file"},
		{[]string{"replay", text}, exitFailed, "not the journal of a show"},
		{[]string{"replay", t.TempDir()}, exitFailed, "no show in this folder"},
	} {
		code, _, stderr := call(t, test.args...)
		if code != test.code || !strings.Contains(stderr, test.want) {
			t.Errorf("%v: exit %d, %q; want %d, %q", test.args, code, stderr, test.code, test.want)
		}
	}
}
