package main

import (
	"context"
	"encoding/json"
	"io/fs"
	"log/slog"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/engine/enginetest"
	"clocktell/relay/feed"
	"clocktell/relay/pgn"
	"clocktell/relay/relaytest"
	"clocktell/testdata/demo"
)

// TestEngineHoldsUpNoMove sends the same moves to shows without an engine, with a real one
// that searches all the time and gives way, and with engines that misbehave, in turns. It
// prints how long after its packet a move is in the published show and at a page. Every
// move must come and the fault be named; times are printed, not judged, for the machine has
// other work.
func TestEngineHoldsUpNoMove(t *testing.T) {
	if os.Getenv("CLOCKTELL_TESTS") == "relay" {
		t.Skip("the race detector takes more time than anything that is measured here")
	}
	real := realEngine(t)
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	faulty := func(fault string) func(*config.Config) {
		return func(c *config.Config) {
			c.Engine.Command, c.Engine.Args = self, enginetest.Args(fault, t.TempDir(), 0)
			c.Engine.Movetime.Duration = 100 * time.Millisecond
		}
	}
	kinds := []struct {
		name string
		set  func(*config.Config)
		last []string // the faults that the show may name
	}{
		{"no engine", func(*config.Config) {}, []string{""}},
		{"a real engine, niced", func(c *config.Config) { c.Engine.Command, c.Engine.Movetime.Duration = real, time.Minute }, []string{""}},
		{"lines of 10 MB", faulty("10 MB line"), []string{"long", "flood"}}, // with every move another search: many such lines are a flood
		{"a flood", faulty("floods"), []string{"flood"}},
	}
	shown, seen := make([][]time.Duration, len(kinds)), make([][]time.Duration, len(kinds))
	for range 2 {
		for i, kind := range kinds {
			m := newMoves(t, kind.set)
			m.play()
			waitShow(t, m.st, func(s *relay.Show) bool { return slices.Contains(kind.last, s.Engine.Last) })
			shown[i], seen[i] = append(shown[i], m.shown...), append(seen[i], m.seen...)
		}
	}
	for i, kind := range kinds {
		a, b := quantiles(shown[i]), quantiles(seen[i])
		plain, page := quantiles(shown[0]), quantiles(seen[0])
		t.Logf("%-21s %d moves; in the show: median %v, p99 %v (%.2f of none's); at a page: median %v, p99 %v (%.2f)", kind.name, len(shown[i]),
			a[0], a[1], float64(a[1])/float64(plain[1]), b[0], b[1], float64(b[1])/float64(page[1]))
	}
}

// quantiles returns the median and the 99th of a hundred.
func quantiles(d []time.Duration) [2]time.Duration {
	slices.Sort(d)
	return [2]time.Duration{d[len(d)/2].Round(time.Microsecond), d[len(d)*99/100].Round(time.Microsecond)}
}

// moves sends the moves of the demo's two games and measures their way.
type moves struct {
	t           *testing.T
	st          *station
	sink        *sink
	frames      chan wire.Board
	shown, seen []time.Duration
}

func newMoves(t *testing.T, set func(*config.Config)) *moves {
	t.Helper()
	st, address := stationAt(t, set)
	m := &moves{t: t, st: st, frames: make(chan wire.Board, 1000)}
	m.sink = &sink{
		ctx: t.Context(), feed: "feed", intake: st.intakes.of("feed"), events: st.heard, polled: func(string, time.Duration) {},
		log: slog.New(slog.DiscardHandler),
	}
	conn := dial(t, address)
	done := make(chan struct{})
	go func() {
		defer close(done)
		for {
			_, data, err := conn.Read(context.Background())
			if err != nil {
				return
			}
			var b wire.Board
			if json.Unmarshal(data, &b) == nil && b.Type == wire.TypeBoard {
				m.frames <- b
			}
		}
	}()
	t.Cleanup(func() {
		conn.CloseNow()
		<-done
	})
	if len(st.engines) > 0 {
		waitShow(t, st, func(s *relay.Show) bool { return !s.Engine.Since.IsZero() })
	}
	return m
}

// play sends one move after the other, of both games in turns.
func (m *moves) play() {
	var games [2][]string
	for i, file := range []string{"game1.pgn", "game2.pgn"} {
		text, err := fs.ReadFile(demo.FS, file)
		if err != nil {
			m.t.Fatal(err)
		}
		for _, move := range pgn.Read(text)[0].Moves {
			games[i] = append(games[i], move.SAN)
		}
	}
	changes := m.st.relay.Subscribe()
	defer changes.Close()
	ticker := time.NewTicker(4 * time.Millisecond) // so that the engine searches in between
	defer ticker.Stop()
	for n := 1; n <= min(len(games[0]), len(games[1])); n++ {
		for board := range games {
			counts := [2]int{n, n - 1 + board}
			packet := relaytest.Packet(
				relaytest.Game{White: "Alba, A", Black: "Basil, B", Control: "5400+30", Moves: strings.Join(games[0][:counts[0]], " ")},
				relaytest.Game{White: "Cora, C", Black: "Dario, D", Control: "5400+30", Moves: strings.Join(games[1][:counts[1]], " ")})
			<-ticker.C
			m.send(changes, []byte(packet), board, n)
		}
	}
}

// send sends a packet with the n-th ply of a board and waits for it.
func (m *moves) send(changes *relay.Subscription, body []byte, board, n int) {
	m.t.Helper()
	limit := time.After(patience)
	began := time.Now()
	m.sink.Answered(feed.Answer{At: m.st.time.Now(), New: true, Body: body})
	for has := false; !has; {
		select {
		case <-changes.C:
			s := m.st.relay.Show()
			has = len(s.Boards) > board && len(s.Boards[board].Plies) >= n
		case <-limit:
			m.t.Fatalf("ply %d of board %d does not come", n, board+1)
		}
	}
	m.shown = append(m.shown, time.Since(began))
	for has := false; !has; {
		select {
		case b := <-m.frames:
			has = b.Board == board+1 && b.Keep+len(b.Plies) >= n
		case <-limit:
			m.t.Fatalf("ply %d of board %d does not reach the page", n, board+1)
		}
	}
	m.seen = append(m.seen, time.Since(began))
}
