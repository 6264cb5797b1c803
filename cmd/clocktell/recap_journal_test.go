package main

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay/journal"
)

// TestRecapHasCues: what a recap has for the editing program is what the verb cues writes, at
// the same rate and from the same mark, and the page over all games points to each of the
// files; those of another rate go when the recap is replaced.
func TestRecapHasCues(t *testing.T) {
	leaveOut(t)
	show, out, cues := takes(t), t.TempDir(), t.TempDir()
	same := []string{"--show", show, "--rate", "29.97", "--start-mark", demoStart.Add(time.Minute).Format(time.RFC3339)}
	for _, args := range [][]string{{"recap", "--show", show, "--out", out, "--rate", "50"}, append([]string{"recap", "--out", out}, same...), append([]string{"cues", "--out", cues}, same...)} {
		if code, said := runs(t, args...); code != exitFine {
			t.Fatalf("%q: exit code %d: %s", args, code, said)
		}
	}
	names := filesIn(t, cues)
	if got := filesIn(t, filepath.Join(out, "cues")); len(names) != 6 || !slices.Equal(got, names) {
		t.Fatalf("the recap has %v, the verb wrote %v", got, names)
	}
	index, err := os.ReadFile(filepath.Join(out, "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		a, errA := os.ReadFile(filepath.Join(out, "cues", name))
		b, errB := os.ReadFile(filepath.Join(cues, name))
		if errA != nil || errB != nil || !bytes.Equal(a, b) {
			t.Errorf("%s is another one: %v, %v", name, errA, errB)
		}
		if !strings.Contains(string(index), `href="cues/`+name+`"`) {
			t.Errorf("the page over all games does not point to %s", name)
		}
	}
}

// TestInterruptedRecap: who interrupts waits for nothing, and what was there stays.
func TestInterruptedRecap(t *testing.T) {
	kept, out := t.TempDir(), t.TempDir()
	recapJournal(t, kept, 40*time.Second)
	recording, err := journal.Read(t.Context(), kept)
	if err != nil {
		t.Fatal(err)
	}
	defer recording.Close()
	plan, err := recordedPlan(recording)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	folder, err := newRecapFolder(out)
	if err != nil {
		t.Fatal(err)
	}
	if err := folder.write("index.html", []byte("old")); err != nil {
		t.Fatal(err)
	}
	stop()
	if _, _, _, err := recalled(ctx, recording); !errors.Is(err, errInterrupted) {
		t.Errorf("reading goes on: %v", err)
	}
	if log, _ := collectCues(ctx, plan, recording.Records(), recording.Began); len(log.Cues) > 0 {
		t.Errorf("collecting goes on: %d cues", len(log.Cues))
	}
	if err := folder.writeUntil(ctx)("index.html", []byte("new")); !errors.Is(err, errInterrupted) {
		t.Errorf("writing goes on: %v", err)
	}
	if text, err := os.ReadFile(filepath.Join(out, "index.html")); string(text) != "old" {
		t.Errorf("%q, %v", text, err)
	}
}

// TestRecapOfDamagedJournal: of a journal that can be read up to a point only, the recap has what
// came before that, and says what it has not.
func TestRecapOfDamagedJournal(t *testing.T) {
	leaveOut(t)
	kept, out := t.TempDir(), t.TempDir()
	recapJournal(t, kept, 4*time.Minute)
	shows, err := filepath.Glob(filepath.Join(kept, "show-*.db"))
	if err != nil || len(shows) != 1 {
		t.Fatal(shows, err)
	}
	db, err := sql.Open("sqlite", shows[0])
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	done, err := db.Exec("UPDATE record SET body = x'00ff00ff' WHERE seq = (SELECT max(seq) - 2 FROM record)")
	if err != nil {
		t.Fatal(err)
	}
	if n, err := done.RowsAffected(); n != 1 || err != nil {
		t.Fatal(n, err)
	}
	code, said := runs(t, "recap", "--show", kept, "--out", out)
	if code != exitFine || !strings.Contains(said, "left out: ") || !strings.Contains(said, "record") || !slices.Contains(filesIn(t, out), "board1.html") {
		t.Errorf("exit code %d: %s", code, said)
	}
}
