package engine

import (
	"bytes"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// game plays moves from the start and returns the positions, the first one included.
func game(t *testing.T, moves string) func(int) *bitboard.Position {
	t.Helper()
	places := []bitboard.Position{bitboard.Start()}
	for _, text := range strings.Fields(moves) {
		p := places[len(places)-1]
		m, legal := moveOf(&p, text)
		if !legal {
			t.Fatal(text)
		}
		p.Make(m)
		places = append(places, p)
	}
	return func(n int) *bitboard.Position { return &places[n] }
}

// TestKeys: what is kept by position is kept by all that an opinion may hang on.
func TestKeys(t *testing.T) {
	for _, row := range []struct {
		a, b  string
		equal bool
		why   string
	}{
		{"d2d3 e7e6 e2e4", "e2e3 e7e6 d2d3 a7a6 e3e4", false, "another position"},
		{"d2d3 e7e6 e2e3", "e2e3 e7e6 d2d3", true, "a pawn move ends what came before"},
		{"d2d3 e7e6 g1f3 g8f6 b1c3", "d2d3 e7e6 b1c3 g8f6 g1f3", false, "other positions may be repeated"},
		{"g1f3 g8f6 f3g1 f6g8", "", false, "once more the same position"},
		{"g1f3 g8f6 f3g1 f6g8 e2e4", "e2e4", true, "no earlier position can come again"},
	} {
		a, b := len(strings.Fields(row.a)), len(strings.Fields(row.b))
		first, second := KeyOf(a, game(t, row.a)), KeyOf(b, game(t, row.b))
		if (first == second) != row.equal {
			t.Errorf("%q and %q: equal %v, want %v: %s", row.a, row.b, first == second, row.equal, row.why)
		}
	}
	p, q := position(t, "8/8/4k3/8/8/4K3/4R3/8 w - - 0 1"), position(t, "8/8/4k3/8/8/4K3/4R3/8 w - - 90 80")
	one := func(p *bitboard.Position) func(int) *bitboard.Position {
		return func(int) *bitboard.Position { return p }
	}
	if p.Hash() != q.Hash() || KeyOf(0, one(&p)) == KeyOf(0, one(&q)) {
		t.Error("ninety of the fifty moves' hundred plies are nothing to the key")
	}
}

// TestPositionText: the engine is told of the moves since the last that no repetition can
// reach behind.
func TestPositionText(t *testing.T) {
	moves := "e2e4 e7e5 g1f3 g8f6 f3g1 f6g8 g1f3"
	place := game(t, moves)
	from := Since(7, place)
	line := Line{Start: *place(from)}
	p := *place(from)
	for _, text := range strings.Fields(moves)[from:] {
		m, _ := moveOf(&p, text)
		line.Moves = append(line.Moves, m)
		p.Make(m)
	}
	const want = "position fen rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq e6 0 2 moves g1f3 g8f6 f3g1 f6g8 g1f3"
	if got := positionText(line); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	if end := line.End(); end.Hash() != place(7).Hash() {
		t.Error("the line ends elsewhere")
	}
}

// TestStoreIsBounded: of more than keptMost positions the one that nobody has asked for
// longest goes.
func TestStoreIsBounded(t *testing.T) {
	s := newStore()
	limit := Limit{Depth: 1}
	for key := range uint64(keptMost) {
		s.put(key, limit, opinion.Opinion{Depth: int(key)})
	}
	if _, ok := s.find(0, limit); !ok {
		t.Fatal("the first has gone too early")
	}
	s.put(keptMost, limit, opinion.Opinion{})
	_, zero := s.find(0, limit)
	_, one := s.find(1, limit)
	if !zero || one || len(s.by) != keptMost || s.order.Len() != keptMost {
		t.Errorf("0 is there: %v, 1: %v, of %d", zero, one, len(s.by))
	}
	s.put(0, Limit{Depth: 2}, opinion.Opinion{Depth: 77})
	if o, ok := s.find(0, Limit{Depth: 2}); !ok || o.Depth != 77 || len(s.by) != keptMost {
		t.Errorf("a deeper result does not take the place: %+v", o)
	}
}

// TestLongLines: lines up to lineMost are heard, longer ones told of once and not held.
func TestLongLines(t *testing.T) {
	most := strings.Repeat("m", lineMost-1)
	text := most + "\n" + most + "m\nshort\n" + strings.Repeat("x", 10<<20) + "\nlast"
	hear := func() (got []string) {
		lines, done := make(chan heard, 10_000), make(chan struct{})
		readLines(strings.NewReader(text), lines, done)
		close(lines)
		for h := range lines {
			switch {
			case h.long:
				got = append(got, "long")
			case !h.more:
				got = append(got, fmt.Sprint(len(h.text)))
			}
		}
		return got
	}
	var before, now runtime.MemStats
	runtime.ReadMemStats(&before)
	got := hear()
	runtime.ReadMemStats(&now)
	if want := fmt.Sprint([]string{fmt.Sprint(lineMost), "long", "6", "long", "4"}); fmt.Sprint(got) != want {
		t.Errorf("heard %v, want %v", got, want)
	}
	if took := now.TotalAlloc - before.TotalAlloc; took > 2<<20 {
		t.Errorf("10 MB were heard with %d bytes", took)
	}
	done := make(chan struct{})
	close(done)
	readLines(bytes.NewReader(bytes.Repeat([]byte("x\n"), 100)), make(chan heard), done) // must return
}

// TestIntroduction: of what an engine says of itself so much is kept, and options are set
// by the names it offers.
func TestIntroduction(t *testing.T) {
	e := New(Options{Threads: 2, Memory: 32, Lines: 99, Settings: map[string]string{"Odd Name": "7"}})
	s := &session{Engine: e, offered: make(map[string]bool)}
	s.introduced(strings.Fields("id name " + strings.Repeat("Long ", 100)))
	for i := range offeredMost + 5 {
		s.introduced([]string{"option", "name", fmt.Sprint("o", i), "type", "spin"})
	}
	if len([]rune(s.name)) != nameMost || len(s.offered) != offeredMost {
		t.Errorf("a name of %d characters, %d options", len([]rune(s.name)), len(s.offered))
	}
	s.offered = make(map[string]bool)
	for _, line := range []string{"option name hash type spin default 16", "option name MultiPV type spin", "option name type", "option", "option name UCI_ShowWDL type check"} {
		s.introduced(strings.Fields(line))
	}
	if got, want := fmt.Sprint(s.settings()), fmt.Sprint([][2]string{{"Hash", "32"}, {"MultiPV", fmt.Sprint(LinesMost)}, {"UCI_ShowWDL", "true"}, {"Odd Name", "7"}}); got != want {
		t.Errorf("settings %s, want %s", got, want)
	}
}
