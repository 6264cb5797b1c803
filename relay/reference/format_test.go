package reference

import (
	"encoding/hex"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"clocktell/relay/clock"
)

var update = flag.Bool("update", false, "rewrite testdata")

// writeTiny writes a file with a little of everything: a position of one game, of
// several, of so many that they have a summary, and a player's habits.
func writeTiny(t testing.TB, path string) {
	t.Helper()
	w, err := Create(path, Head{Depth: 60, Hashing: 0x0123456789abcdef, Filter: Filter{MinRating: 1200, FromYear: 1990}})
	if err != nil {
		t.Fatal(err)
	}
	for i := range 20 {
		g := Game{White: "Ada Quill", Black: "Bo Marsh", Event: "Harbour Open", WhiteRating: 2000 + 10*i, BlackRating: 2100,
			Year: 2000 + i%3, Result: Result(i % 4), Class: clock.Class(i % 4), Venue: Venue(i % 3)}
		if _, err := w.AddGame(g); err != nil {
			t.Fatal(err)
		}
	}
	for _, o := range []Occurrence{{1, 7, 3}, {1 << 63, 5 | BlackMoves, 0}, {1 << 63, 6 | BlackMoves, 1}, {1<<63 + 9, 0, 19}} {
		if err := w.Add(o); err != nil {
			t.Fatal(err)
		}
	}
	for id := range GameID(summaryFrom + 1) {
		if err := w.Add(Occurrence{1<<64 - 1, 8, id}); err != nil {
			t.Fatal(err)
		}
	}
	habit := Habit{Player: "Ada Quill", Class: clock.ClassRapid, Games: 40, Prepared: [3]int{6, 9, 12},
		Spent: []HabitMove{{1, 4 * time.Second, 40}}, Left: []HabitLeft{{10, 21 * time.Minute, 38}}}
	if err := w.AddHabit(habit); err != nil {
		t.Fatal(err)
	}
	if err := w.Commit(); err != nil {
		t.Fatal(err)
	}
}

// TestFormatKeepsItsVersion compares a file with one that is kept. When the
// format changes on purpose, the version goes up and -update writes the new file;
// the old one is then deleted, as its version is refused.
func TestFormatKeepsItsVersion(t *testing.T) {
	path := filepath.Join(t.TempDir(), "tiny")
	writeTiny(t, path)
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	golden := filepath.Join("testdata", fmt.Sprintf("tiny-%d.hex", version))
	if *update {
		if err := os.WriteFile(golden, []byte(hex.Dump(b)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got := hex.Dump(b); got != string(want) {
		t.Errorf("the format has changed and the version has not:\n%s", got)
	}
	if x, err := Open(path); err != nil || x.Verify() != nil {
		t.Error(err)
	}
}
