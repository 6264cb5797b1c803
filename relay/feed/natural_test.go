package feed

import (
	"slices"
	"testing"
)

// The order people expect of numbered files, as file managers show them: common practice, no source.
func TestNatural(t *testing.T) {
	sorted := []string{
		"", "1.pgn", "2.pgn", "10.pgn", "a.pgn", "b", "b.pgn", "b0.pgn", "b1", "B1a2", "b1a10",
		"game 2.pgn", "game2.pgn", "Game02.pgn", "game3", "game10.pgn", "game010b.pgn", "game99999999999999999999", "game100000000000000000000",
		"gameA", "ä",
	}
	// Of two names alike but for zeros or case, the bytes decide: "Game02" stands before "game2".
	i := slices.Index(sorted, "game2.pgn")
	sorted[i], sorted[i+1] = sorted[i+1], sorted[i]
	for i, a := range sorted {
		for j, b := range sorted {
			if got, want := natural(a, b), compareInt(i, j); got != want {
				t.Errorf("natural(%q, %q) = %d, want %d", a, b, got, want)
			}
		}
	}
}

func compareInt(i, j int) int { return min(1, max(-1, i-j)) }
