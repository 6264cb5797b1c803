package main

import (
	"context"
	"fmt"
	"log/slog"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/relaytest"
)

// pagesOf shows games, each from a file of its own, and returns the address of the pages.
// Board n is game n.
func pagesOf(t *testing.T, games ...shownGame) string {
	t.Helper()
	dir, c := t.TempDir(), config.Default()
	for i, g := range games {
		f := config.DefaultFeed()
		f.Name, f.URL, f.File = fmt.Sprintf("feed-%d", i+1), "", filepath.Join(dir, fmt.Sprintf("%d.pgn", i+1))
		f.Delay.Duration, f.StaleAfter.Duration = g.delay, time.Hour
		c.Feeds = append(c.Feeds, f)
	}
	st, url := served(t, c)
	for i, g := range games {
		writeGame(t, c.Feeds[i].File, g.Game, 0)
		waitShow(t, st, func(s *relay.Show) bool { return len(s.Boards) > i })
		for n := range len(strings.Fields(g.Moves)) {
			writeGame(t, c.Feeds[i].File, g.Game, n+1)
			waitShow(t, st, func(s *relay.Show) bool { return len(s.Boards[i].Plies) > n })
		}
	}
	return url
}

// pagesOfOne shows games from one feed that has them all, as a round has; their moves come together.
func pagesOfOne(t *testing.T, games ...relaytest.Game) string {
	t.Helper()
	c, f := config.Default(), config.DefaultFeed()
	f.Name, f.URL, f.File = "feed", "", filepath.Join(t.TempDir(), "round.pgn")
	f.Delay.Duration, f.StaleAfter.Duration = 0, time.Hour
	c.Feeds = append(c.Feeds, f)
	st, url := served(t, c)
	for n := range len(strings.Fields(games[0].Moves)) + 1 {
		writeRound(t, f.File, n, games...)
		waitShow(t, st, func(s *relay.Show) bool {
			return len(s.Boards) == len(games) && !slices.ContainsFunc(s.Boards, func(b *relay.Board) bool { return len(b.Plies) < n })
		})
	}
	return url
}

// served runs a station until the test ends, and returns the address of its pages.
func served(t *testing.T, c config.Config) (*station, string) {
	t.Helper()
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
	return st, "http://" + l.Addr().String()
}

// shownGame is a game and the simple delay it is played with.
type shownGame struct {
	relaytest.Game
	delay time.Duration
}

// writeGame puts the first plies of a game in the place of a file.
func writeGame(t *testing.T, file string, g relaytest.Game, plies int) {
	t.Helper()
	writeRound(t, file, plies, g)
}

// writeRound does so with several games.
func writeRound(t *testing.T, file string, plies int, games ...relaytest.Game) {
	t.Helper()
	round := slices.Clone(games)
	for i := range round {
		round[i].Moves = strings.Join(strings.Fields(round[i].Moves)[:plies], " ")
	}
	if err := os.WriteFile(file+".new", []byte(relaytest.Packet(round...)), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(file+".new", file); err != nil {
		t.Fatal(err)
	}
}

func waitShow(t *testing.T, st *station, holds func(*relay.Show) bool) {
	t.Helper()
	subscription := st.relay.Subscribe()
	defer subscription.Close()
	limit := time.After(patience)
	for !holds(st.relay.Show()) {
		select {
		case <-subscription.C:
		case <-limit:
			t.Fatal("waited in vain for the show")
		}
	}
}

// clocksShown reads both clocks of a scene in one go.
const clocksShown = `Object.fromEntries(['white', 'black'].map((side) => {
	const clock = document.querySelector('.clock[data-side=' + side + ']');
	const [m, s] = clock.dataset.text.replace('≈', '').split(':');
	return [side, { text: clock.dataset.text, state: clock.dataset.state, delay: Number(clock.dataset.delay ?? 0), seconds: 60 * m + Number(s) }];
}))`

type sceneClock struct {
	Text, State    string
	Delay, Seconds float64
}

// samples reads the clocks of a scene again and again until it has seen so many that
// differ from the one before.
func samples(t *testing.T, ctx context.Context, url string, n int) []struct{ White, Black sceneClock } {
	t.Helper()
	visit(t, ctx, url)
	waitFor(t, ctx, "clocks", "document.querySelector('.clock[data-text]')")
	var out []struct{ White, Black sceneClock }
	for len(out) < n {
		now := evaluate[struct{ White, Black sceneClock }](t, ctx, clocksShown)
		if len(out) == 0 || out[len(out)-1] != now {
			out = append(out, now)
		}
	}
	return out
}

// TestClocksOnAir looks at clocks that do not simply fall, and at those that are known to
// whole minutes only: no picture shows more than is known, and the page goes on with them
// by itself.
func TestClocksOnAir(t *testing.T) {
	ctx := browser(t)
	minutes := []string{"1:30:00", "1:29:00", "1:29:00", "1:28:00", "1:28:00", "1:28:00", "0:43:00", "1:27:00"}
	url := pagesOf(t,
		shownGame{Game: relaytest.Game{Control: "600", Moves: "e4", Clocks: []string{"0:09:50"}}, delay: time.Minute},
		shownGame{Game: relaytest.Game{White: "A, A", Black: "B, B", Control: "*300", Moves: "e4 e5", Clocks: []string{"0:04:50", "0:05:05"}}},
		shownGame{Game: relaytest.Game{White: "C, C", Black: "D, D", Control: "5400", Moves: "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6", Clocks: minutes}},
		shownGame{Game: relaytest.Game{White: "E, E", Black: "F, F", Control: "15", Moves: "e4 e5", Clocks: []string{"0:00:14", "0:00:14"}}},
	)
	if now := samples(t, ctx, url+"/scene/board?board=4", 1)[0]; strings.Contains(now.White.Text, ".") || now.White.Seconds >= 20 {
		t.Errorf("%q of whole seconds: no tenths, though it is below twenty seconds", now.White.Text)
	}
	for i, now := range samples(t, ctx, url+"/scene/board?board=1", 4) {
		if b := now.Black; b.Text != "10:00" || b.State != "running" || b.Delay < 1 || b.Delay > 60 {
			t.Errorf("look %d: with a minute of delay the clock on move is %+v, want 10:00 and what is left of the delay", i+1, b)
		}
	}
	for i, now := range samples(t, ctx, url+"/scene/board?board=2", 4) {
		sum := now.White.Seconds + now.Black.Seconds
		if now.White.State != "running" || now.Black.State != "rising" || sum < 598 || sum > 600 {
			t.Errorf("look %d: White %+v, Black %+v; want 600 s together, less what is cut off", i+1, now.White, now.Black)
		}
	}
	if now := samples(t, ctx, url+"/scene/board?board=3", 1)[0]; now.White.Text != "≈43min" || now.Black.Text != "1h27min" {
		t.Errorf("whole minutes: White %+v, Black %+v", now.White, now.Black)
	}
}
