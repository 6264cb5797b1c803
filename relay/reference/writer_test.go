package reference

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"clocktell/relay/clock"
)

func create(t *testing.T, games int) (*Writer, string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "index")
	w, err := Create(path, Head{})
	if err != nil {
		t.Fatal(err)
	}
	for range games {
		if _, err := w.AddGame(Game{}); err != nil {
			t.Fatal(err)
		}
	}
	return w, path
}

// filesBeside returns how many files are in the folder of path.
func filesBeside(t *testing.T, path string) int {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	return len(entries)
}

// TestOrder refuses occurrences out of order and too many moves, and does not
// commit after that.
func TestOrder(t *testing.T) {
	many := func(n int) (out []Occurrence) {
		for i := range n {
			out = append(out, Occurrence{9, uint16(i), 1})
		}
		return out
	}
	for name, tt := range map[string]struct {
		add  []Occurrence
		want error
	}{
		"position before":  {[]Occurrence{{5, 1, 0}, {4, 1, 0}}, ErrUnsorted},
		"move before":      {[]Occurrence{{5, 2, 0}, {5, 1, 1}}, ErrUnsorted},
		"game before":      {[]Occurrence{{5, 2, 1}, {5, 2, 0}}, ErrUnsorted},
		"twice":            {[]Occurrence{{5, 2, 1}, {5, 2, 1}}, ErrUnsorted},
		"both sides":       {[]Occurrence{{5, 2, 1}, {5, 2 | BlackMoves, 0}}, ErrLimit},
		"no such game":     {[]Occurrence{{5, 2, 2}}, ErrLimit},
		"moves at limit":   {many(movesMost), nil},
		"moves over limit": {many(movesMost + 1), ErrLimit},
		"first and last":   {[]Occurrence{{0, 0, 0}, {0, 1, 1}, {1<<64 - 1, BlackMoves, 0}}, nil},
	} {
		w, path := create(t, 2)
		var err error
		for _, o := range tt.add {
			if err = w.Add(o); err != nil {
				break
			}
		}
		if !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, want %v", name, err, tt.want)
		}
		if err := w.Commit(); !errors.Is(err, tt.want) {
			t.Errorf("%s: commit: %v, want %v", name, err, tt.want)
		}
		want := 1
		if tt.want != nil {
			want = 0
		}
		if n := filesBeside(t, path); n != want {
			t.Errorf("%s: %d files, want %d", name, n, want)
		}
	}
}

// TestPhases refuses what comes too late.
func TestPhases(t *testing.T) {
	w, _ := create(t, 1)
	if err := w.Add(Occurrence{1, 1, 0}); err != nil {
		t.Fatal(err)
	}
	if _, err := w.AddGame(Game{}); !errors.Is(err, ErrPhase) {
		t.Error(err)
	}
	w.Abort()
	w, _ = create(t, 1)
	if err := w.AddHabit(Habit{Player: "Ada"}); err != nil {
		t.Fatal(err)
	}
	if err := w.Add(Occurrence{1, 1, 0}); !errors.Is(err, ErrPhase) {
		t.Error(err)
	}
	if err := w.Commit(); !errors.Is(err, ErrPhase) {
		t.Error(err)
	}
	if err := w.Commit(); !errors.Is(err, os.ErrClosed) {
		t.Error(err)
	}
	if err := w.AddHabit(Habit{Player: "Bo"}); !errors.Is(err, ErrPhase) {
		t.Error(err)
	}
	if err := w.Abort(); err != nil {
		t.Error(err)
	}
}

// TestUnfinished: what stands at the path stays until Commit, and nobody opens
// what is not finished.
func TestUnfinished(t *testing.T) {
	w, path := create(t, 3)
	if err := w.Commit(); err != nil {
		t.Fatal(err)
	}
	w, err := Create(path, Head{})
	if err != nil {
		t.Fatal(err)
	}
	if x, err := Open(path); err != nil || x.Games() != 3 {
		t.Fatal(x, err)
	}
	if err := w.out.w.Flush(); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(w.out.file.Name()); !errors.Is(err, ErrUnfinished) {
		t.Error(err)
	}
	second, err := Create(path, Head{}) // at the same time
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(w.Abort(), second.Abort()); err != nil || filesBeside(t, path) != 1 {
		t.Error(err, filesBeside(t, path))
	}
	if _, err := Create(filepath.Join(path, "no folder"), Head{}); err == nil {
		t.Error("created in a file")
	}
	if _, err := Create(path, Head{Filter: Filter{MinRating: 50}}); !errors.Is(err, ErrFilter) {
		t.Error(err)
	}
	if _, err := Create(path, Head{Depth: -1}); !errors.Is(err, ErrLimit) {
		t.Error(err)
	}
}

// TestSameBytes: two builds of the same games give the same file.
func TestSameBytes(t *testing.T) {
	w := randomWorld(rand.New(rand.NewPCG(3, 3)), 12000, 3, 3)
	dir := t.TempDir()
	var files [2][]byte
	for i, name := range []string{"a", "b"} {
		w.write(t, filepath.Join(dir, name))
		var err error
		if files[i], err = os.ReadFile(filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(files[0], files[1]) {
		t.Error("two builds differ")
	}
}

// TestGames: what is kept of games, and of values past the limits.
func TestGames(t *testing.T) {
	long := strings.Repeat("ä", 200) // 400 bytes
	given := []Game{
		{White: "Ada Quill", Black: "Bo Marsh", Event: "Open", WhiteRating: RatingMost, BlackRating: 1, Year: YearMost, Result: BlackWon, Class: clock.ClassStandard, Venue: Elsewhere},
		{WhiteRating: RatingMost + 1, BlackRating: -1, Year: YearMost + 1, Result: 9, Class: 99, Venue: 9},
		{White: long, Black: "Ada Quill", Year: -5},
	}
	w := &world{games: given}
	x := w.index(t)
	for id, want := range []Game{given[0], {}, {White: strings.Repeat("ä", NameMost/2), Black: "Ada Quill"}} {
		if got, err := x.Game(GameID(id)); err != nil || got != want || !utf8.ValidString(got.White) {
			t.Errorf("%+v, %v; want %+v", got, err, want)
		}
	}
	if _, err := x.Game(3); !errors.Is(err, ErrLimit) {
		t.Error(err)
	}
	var out Answer
	if err := x.Lookup(5, Filter{}, &out); err != nil || out.Unfiltered != 0 || x.Verify() != nil {
		t.Errorf("an index without positions knows one: %+v, %v", out, err)
	}
}

// TestHead: what the builder says comes back.
func TestHead(t *testing.T) {
	want := Head{Depth: 60, Hashing: 0xfedc, Filter: Filter{MinRating: 2400, FromYear: 1990, ToYear: 2020, OnlyOverTheBoard: true, Class: clock.ClassRapid}}
	path := filepath.Join(t.TempDir(), "index")
	w, err := Create(path, want)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Commit(); err != nil {
		t.Fatal(err)
	}
	x, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer x.Close()
	info, _ := os.Stat(path)
	if x.Head() != want || x.Depth() != 60 || x.Size() != info.Size() {
		t.Errorf("%+v, size %d", x.Head(), x.Size())
	}
}
