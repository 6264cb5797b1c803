package main

import (
	"context"
	"log/slog"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/relaytest"
)

// realEngine returns the path of Debian's engine. Without one the test is skipped, but
// where CLOCKTELL_TESTS=all (as in .ci/run) it fails.
func realEngine(t *testing.T) string {
	t.Helper()
	path := usualEngine(exec.LookPath)
	if path == "" {
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatal("there is no engine; .ci/run installs one")
		}
		t.Skip("there is no engine on the path")
	}
	return path
}

// stationWith runs a station with engines and one feed, a file, until the test ends. It
// returns the file.
func stationWith(t *testing.T, set func(*config.Config)) (*station, string) {
	t.Helper()
	file := ""
	st, _ := stationAt(t, func(c *config.Config) {
		set(c)
		file = c.Feeds[0].File
	})
	return st, file
}

// stationAt is stationWith, and returns the address of the pages.
func stationAt(t *testing.T, set func(*config.Config)) (*station, string) {
	t.Helper()
	c := config.Default()
	f := config.DefaultFeed()
	f.Name, f.File = "feed", filepath.Join(t.TempDir(), "games.pgn")
	c.Feeds = []config.Feed{f}
	set(&c)
	st, err := newStation(t.Context(), c, relay.NewTimebase(1), slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error)
	go func() { done <- st.run(ctx, l) }()
	t.Cleanup(func() {
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	return st, l.Addr().String()
}

// TestSecondOpinions: a real engine is asked for what the boards show: of a game that
// goes on every position, of a finished one each a second time and longer.
func TestSecondOpinions(t *testing.T) {
	path := realEngine(t)
	st, file := stationWith(t, func(c *config.Config) {
		c.Engine.Command, c.Engine.Memory = path, 16
		c.Engine.Movetime.Duration, c.Engine.DeepMovetime.Duration = 100*time.Millisecond, 200*time.Millisecond
		c.Second = c.Engine
		c.Second.Lines = 1
	})
	// Fool's mate: after 1.f3 e5 2.g4 Black mates at once; of the last position there is
	// nothing to say.
	g := relaytest.Game{Control: "3600+30", Moves: "f3 e5 g4"}
	writeGame(t, file, g, 3)
	waitShow(t, st, func(s *relay.Show) bool {
		return len(s.Boards) == 1 && final(s.Boards[0], 100*time.Millisecond, 0, 3) && s.Engine.Name != path && !s.Engine.Since.IsZero()
	})
	b := st.relay.Show().Boards[0]
	if best, ok := b.OpinionAt(3).Best(); !ok || best.Score.Mate != -1 || best.First().String() != "d8h4" {
		t.Errorf("after 2.g4 the engine thinks %+v, not mate in one by d8h4", best)
	}
	g.Moves, g.Result = "f3 e5 g4 Qh4#", "0-1"
	writeGame(t, file, g, 4)
	waitShow(t, st, func(s *relay.Show) bool { return s.Boards[0].Over() && final(s.Boards[0], 200*time.Millisecond, 0, 3) })
	if b = st.relay.Show().Boards[0]; b.OpinionAt(4) != nil {
		t.Errorf("of the mate itself the engine thinks %+v", b.OpinionAt(4))
	}
	if len(b.SecondOpinionAt(0).Lines) != 1 || len(b.OpinionAt(0).Lines) != 3 || b.EnginesDiffer(3) {
		t.Errorf("the start: %d and %d lines, want 3 and 1; differ after 2.g4: %v", len(b.OpinionAt(0).Lines), len(b.SecondOpinionAt(0).Lines), b.EnginesDiffer(3))
	}
}

// final reports whether both engines have said of a board's positions what they come to
// when given so long.
func final(b *relay.Board, given time.Duration, from, to int) bool {
	for n := from; n <= to && n <= len(b.Plies); n++ {
		first, second := b.OpinionAt(n), b.SecondOpinionAt(n)
		if first == nil || second == nil || !first.Final || !second.Final || first.Given < given || second.Given < given {
			return false
		}
	}
	return len(b.Plies) >= to
}
