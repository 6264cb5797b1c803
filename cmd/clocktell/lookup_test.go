package main

import (
	"context"
	"io/fs"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/reference"
	"clocktell/relay/relaytest"
	"clocktell/testdata/demo"
)

// demoLibrary opens the reference that the demo builds.
func demoLibrary(t *testing.T, c config.Reference) *library {
	t.Helper()
	file, forget, err := demoReference(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := forget(); err != nil {
			t.Error(err)
		}
	})
	c.File = file
	return demoLibraryOf(t, c)
}

// demoLibraryOf opens the reference that a configuration names.
func demoLibraryOf(t *testing.T, c config.Reference) *library {
	t.Helper()
	l := openLibrary(c, func() time.Time { return relaytest.Start }, slog.New(slog.DiscardHandler))
	if l.state.Fault != "" {
		t.Fatal(l.state.Fault)
	}
	t.Cleanup(func() {
		if err := l.close(); err != nil {
			t.Error(err)
		}
	})
	return l
}

// shown plays games of the demo into a show, and what the library says of them.
func shown(t *testing.T, l *library, files ...string) *relaytest.Stage {
	t.Helper()
	var games []string
	for _, file := range files {
		text, err := fs.ReadFile(demo.FS, file)
		if err != nil {
			t.Fatal(err)
		}
		games = append(games, string(text))
	}
	s := relaytest.NewStage()
	s.Take(strings.Join(games, "\n"))
	for _, b := range s.Show.Boards {
		s.Apply(l.answers(b, b.Unanswered(l.index.Depth())))
	}
	return s
}

// TestDemoNovelties: both games of the demo leave its reference where its table of lines
// says so, and the counts are those of that table.
func TestDemoNovelties(t *testing.T) {
	s := shown(t, demoLibrary(t, config.Reference{}), "game1.pgn", "game2.pgn")
	for number, want := range []struct {
		move    string
		reached int
		usual   string
	}{{"f3", 11, "O-O"}, {"b4", 23, "Ng3"}} {
		b := s.Board(number + 1)
		i := b.Novelty()
		if i < 0 || b.Plies[i].SAN != want.move {
			t.Fatalf("board %d: novelty at index %d, want %s", number+1, i, want.move)
		}
		before := b.KnownAt(i)
		if before.Games != want.reached || before.Moves[0].SAN != want.usual {
			t.Errorf("board %d: %d games reached it and most went %s; want %d, %s", number+1, before.Games, before.Moves[0].SAN, want.reached, want.usual)
		}
		if before.Last.Year != 2024 || before.Last.Went == "" {
			t.Errorf("board %d: the last game was %+v, want one of 2024 with the move it went", number+1, before.Last)
		}
	}
	if a, reached := s.Board(1).KnownAt(29), s.Board(1).KnownAt(0); a.Games != 0 || reached.Games != 237 {
		t.Errorf("%d games start, want 237; %d have the novelty", reached.Games, a.Games)
	}
}

// TestCountedGames: the filter of the configuration says which games count; the others
// are told apart, not forgotten.
func TestCountedGames(t *testing.T) {
	all := shown(t, demoLibrary(t, config.Reference{}), "game1.pgn").Board(1)
	some := shown(t, demoLibrary(t, config.Reference{MinRating: 2500, FromYear: 2012, OverTheBoard: true, TimeClass: "standard"}), "game1.pgn").Board(1)
	if a, s := all.KnownAt(0), some.KnownAt(0); s.Games >= a.Games || s.Games == 0 || s.All != a.Games {
		t.Errorf("%d of %d games count, and all are %d", s.Games, a.Games, s.All)
	}
	none := shown(t, demoLibrary(t, config.Reference{TimeClass: "blitz"}), "game1.pgn").Board(1)
	if k := none.KnownAt(0); k.Games != 0 || none.Novelty() != -1 {
		t.Errorf("no game counts, but %d do, and the novelty is at index %d", k.Games, none.Novelty())
	}
}

// TestBrokenReference: a reference that cannot be used is told, and the show runs.
func TestBrokenReference(t *testing.T) {
	file := filepath.Join(t.TempDir(), "games.ref")
	if err := os.WriteFile(file, []byte("no index"), 0o600); err != nil {
		t.Fatal(err)
	}
	other := filepath.Join(t.TempDir(), "other.ref")
	w, err := reference.Create(other, reference.Head{Depth: 60, Hashing: 1})
	if err == nil {
		_, err = w.AddGame(reference.Game{White: "A", Black: "B"})
	}
	if err == nil {
		err = w.Commit()
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{file, file + ".not", other} {
		l := openLibrary(config.Reference{File: name}, func() time.Time { return relaytest.Start }, slog.New(slog.DiscardHandler))
		events := make(chan relay.Event, 1)
		r := relay.New(relay.NewShow(relaytest.Plan(), relaytest.Start), relay.NewTimebaseAt(relaytest.Start, 1))
		if err := l.run(context.Background(), r, events); err != nil {
			t.Fatal(err)
		}
		if e, ok := (<-events).(relay.ReferenceAttached); !ok || e.Reference.Fault == "" || e.Reference.Attached() {
			t.Errorf("%s: %+v", name, e)
		}
	}
}

// TestAskedOnce: what is on its way is not asked again, unless it seems to be lost.
func TestAskedOnce(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Moves: "e4 e5"}.PGN())
	asked, b := make(askedBefore), s.Board(1)
	if first, again := asked.fresh(b, 60), asked.fresh(b, 60); len(first) != 3 || len(again) != 0 {
		t.Errorf("asks %d, then %d; want 3 and none", len(first), len(again))
	}
	if shallow := make(askedBefore).fresh(b, 1); len(shallow) != 2 {
		t.Errorf("asks %d of a reference that holds one ply, want the start and that", len(shallow))
	}
	later := *b
	later.Rev += askedAgain
	if lost := asked.fresh(&later, 60); len(lost) != 3 {
		t.Errorf("asks %d again after %d revisions, want all 3", len(lost), askedAgain)
	}
}

// BenchmarkAnswer is the time from a position to what the show gets to know of it; the
// goal is a millisecond.
func BenchmarkAnswer(b *testing.B) {
	file, forget, err := demoReference(b.Context())
	if err != nil {
		b.Fatal(err)
	}
	defer forget()
	l := openLibrary(config.Reference{File: file}, func() time.Time { return relaytest.Start }, slog.New(slog.DiscardHandler))
	defer l.close()
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Moves: "d4 d5 c4 c6 Nf3 Nf6"}.PGN())
	positions := s.Board(1).Unanswered(60)
	for b.Loop() {
		l.answers(s.Board(1), positions)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(positions)), "ns/position")
}

// TestSpellings: feeds and collections write names in two ways.
func TestSpellings(t *testing.T) {
	for name, want := range map[string][]string{
		"Varga, Ilse":       {"Varga, Ilse", "Ilse Varga"},
		"Ilse Varga":        {"Ilse Varga", "Varga, Ilse"},
		"Anna Maria Dobrev": {"Anna Maria Dobrev", "Dobrev, Anna Maria"},
		"Varga":             {"Varga"},
	} {
		if got := spellings(name); !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}
