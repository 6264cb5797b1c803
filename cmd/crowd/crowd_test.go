package main

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/notnil/chess"

	"clocktell/relay/config"
	"clocktell/relay/pgn"
)

func TestDealing(t *testing.T) {
	m, err := parseMix(usualMix)
	if err != nil {
		t.Fatal(err)
	}
	for _, pages := range []int{6, 40, 2000} {
		kinds := m.deal(pages)
		if len(kinds) != pages {
			t.Errorf("%d kinds for %d pages", len(kinds), pages)
		}
		for _, k := range m {
			if !slices.Contains(kinds, k.page) {
				t.Errorf("of %d pages none is %s", pages, k.page)
			}
		}
	}
	o := options{percent: [tempers]float64{slow: 10, hostile: 2, reconnecting: 5}}
	counts := make(map[temper]int)
	for _, each := range o.tempersOf(2000) {
		counts[each]++
	}
	if counts[slow] != 200 || counts[hostile] != 40 || counts[reconnecting] != 100 || counts[healthy] != 1660 || counts[stalled] != 0 {
		t.Errorf("%v", counts)
	}
}

// TestHistogram holds the shares to a list that is sorted.
func TestHistogram(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	var parts [2]histogram
	var list []time.Duration
	for n := range 1000 {
		took := time.Duration(rng.IntN(30_000)) * time.Millisecond
		list = append(list, took)
		parts[n%2].add(took)
	}
	parts[0].merge(&parts[1])
	slices.Sort(list)
	for _, percent := range []float64{0, 10, 50, 60} { // beyond slowest only the last is known
		if got, want := parts[0].within(percent), list[int(percent*10)]; got != want {
			t.Errorf("%g of 100 within %v, want %v", percent, got, want)
		}
	}
	if got := parts[0].within(100); got != list[999] || parts[0].max() != got {
		t.Errorf("all within %v, want %v", got, list[999])
	}
	if empty := new(histogram); empty.within(99) != 0 {
		t.Error("nothing took some time")
	}
}

func TestCosts(t *testing.T) {
	var samples []sample
	for n := range 10 {
		samples = append(samples, sample{at: start.Add(time.Duration(n) * time.Minute), usage: usage{cpu: time.Duration(n) * 3 * time.Second, rss: 1000 + 2*float64(n)}})
	}
	if got := slope(samples, func(s sample) float64 { return s.rss }); got < 119.99 || got > 120.01 {
		t.Errorf("two a minute are %g an hour", got)
	}
	if got := share(samples[0], samples[9]); got != 0.05 {
		t.Errorf("three seconds a minute are %g of a core", got)
	}
	if slope(samples[:1], func(s sample) float64 { return s.rss }) != 0 || share(samples[0], samples[0]) != 0 {
		t.Error("one sample tells of no change")
	}
}

// TestGamesAreGames: a library of others plays what the arena serves, move by move, and
// finds the same ends; every game comes in the feed of its table.
func TestGamesAreGames(t *testing.T) {
	now := start
	a := newArena(3, 10, 1, func() time.Time { return now })
	for range 3000 {
		now = now.Add(200 * time.Millisecond)
		a.move()
	}
	seen, over := 0, 0
	for feed := 1; feed <= 3; feed++ {
		for _, g := range pgn.Read(a.text(feed)) {
			seen++
			replay := chess.NewGame()
			for _, m := range g.Moves {
				if err := replay.MoveStr(m.SAN); err != nil {
					t.Fatalf("board %s: %v", g.Tag("Board"), err)
				}
			}
			if o := replay.Outcome(); o == chess.WhiteWon || o == chess.BlackWon {
				over++
				if string(o) != g.Result {
					t.Errorf("board %s: %s, the library says %s", g.Tag("Board"), g.Result, o)
				}
			}
		}
	}
	if seen != 10 || a.moves() != 3000 {
		t.Errorf("%d games, %d moves", seen, a.moves())
	}
	rounds := 0
	for _, games := range a.tables {
		rounds += len(games)
	}
	t.Logf("%d games in all, %d of the newest ended with mate", rounds, over)
	if rounds < 20 {
		t.Errorf("only %d games were begun", rounds)
	}
}

// TestConfiguration: clocktell itself takes what is written for it.
func TestConfiguration(t *testing.T) {
	o := options{pages: 5000, boards: 200, feeds: 12, every: time.Second}
	c, err := config.Parse("crowd.toml", configuration(o, "127.0.0.1:8702", "/nowhere"), func(string) (string, bool) { return "", false })
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Feeds) != 12 || c.Server.MaxPages < o.pages || c.Server.MaxConnsOne < o.pages || c.Show.MaxBoards != 200 {
		t.Errorf("%+v", c)
	}
	if text := configuration(o, "h:1", ""); !strings.Contains(text, "http://h:1/12.pgn") {
		t.Error(text)
	}
}
