package remark

import (
	"slices"
	"strings"
	"testing"

	"clocktell/relay/bitboard"
)

func position(tb testing.TB, fen string) Position {
	tb.Helper()
	p, err := bitboard.ParseFEN(fen)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

// follow plays moves in SAN from a position and returns the state after each.
func follow(tb testing.TB, fen, moves string) []State {
	tb.Helper()
	p := position(tb, fen)
	states := []State{Begin(&p)}
	var hashes []uint64
	for _, san := range strings.Fields(moves) {
		m, err := p.ParseSAN(san)
		if err != nil {
			tb.Fatalf("%s in %s: %v", san, p.FEN(), err)
		}
		before := p
		hashes = append(hashes, p.Hash())
		p.Make(m)
		states = append(states, states[len(states)-1].Next(&before, m, &p, hashes...))
	}
	return states
}

// finding returns the key of what a rule finds after the moves, "" for nothing.
func finding(tb testing.TB, rule Rule, fen, moves string) string {
	tb.Helper()
	states := follow(tb, fen, moves)
	last := &states[len(states)-1]
	for i := range last.found {
		if last.found[i].Rule == rule {
			return last.found[i].Key()
		}
	}
	return ""
}

// TestFindings: every rule finds what its definition says, and nothing where one thing of it is
// missing. The positions that speak come from games of the library, each the one with the
// fewest men, and were checked by eye; the others are those with one man moved, added or left out.
func TestFindings(t *testing.T) {
	tested := make(map[Rule]bool)
	for _, test := range slices.Concat(findingTable, calmTable) {
		tested[test.rule] = true
		if got := finding(t, test.rule, test.fen, test.move); got != test.want {
			t.Errorf("%s: %s %s: found %q, want %q", test.rule, test.fen, test.move, got, test.want)
		}
		if test.miss == "" {
			continue
		}
		fen, move, _ := strings.Cut(test.miss, "|")
		if got := finding(t, test.rule, fen, move); got != "" {
			t.Errorf("%s: %s %s: found %q, want nothing", test.rule, fen, move, got)
		}
	}
	for _, rule := range Rules() {
		if !tested[rule] {
			t.Errorf("%s is in no position of the table", rule)
		}
	}
}
