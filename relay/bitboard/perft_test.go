package bitboard

import (
	"os"
	"testing"
)

// perftPositions are counts of the leaves of the tree of legal moves, by depth from 1.
// Source: chessprogramming.org/Perft_Results, positions 1 to 6, and the widely used
// position of promotions; all of them were computed again with a generator that
// shares nothing with this package.
var perftPositions = []struct {
	name, fen string
	counts    []int
}{
	{"start", StartFEN, []int{20, 400, 8902, 197281, 4865609, 119060324}},
	{"2", "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1", []int{48, 2039, 97862, 4085603, 193690690}},
	{"3", "8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1", []int{14, 191, 2812, 43238, 674624, 11030083}},
	{"4", "r3k2r/Pppp1ppp/1b3nbN/nP6/BBP1P3/q4N2/Pp1P2PP/R2Q1RK1 w kq - 0 1", []int{6, 264, 9467, 422333, 15833292}},
	{"5", "rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8", []int{44, 1486, 62379, 2103487, 89941194}},
	{"6", "r4rk1/1pp1qppp/p1np1n2/2b1p1B1/2B1P1b1/P1NP1N2/1PP1QPPP/R4RK1 w - - 0 10", []int{46, 2079, 89890, 3894594, 164075551}},
	{"promotions", "n1n5/PPPk4/8/8/8/8/4Kppp/5N1N b - - 0 1", []int{24, 496, 9483, 182838, 3605103, 71179139}},
}

// TestPerft counts to the depth at which a tree has five million leaves, and with
// CLOCKTELL_TESTS=all as deep as the table goes.
func TestPerft(t *testing.T) {
	most := 5_000_000
	if os.Getenv("CLOCKTELL_TESTS") == "all" {
		most = 1 << 40
	}
	for _, test := range perftPositions {
		t.Run(test.name, func(t *testing.T) {
			p := mustFEN(t, test.fen)
			for i, want := range test.counts {
				if want > most {
					break
				}
				if got := perft(&p, i+1); got != want {
					t.Errorf("depth %d: %d leaves, want %d", i+1, got, want)
				}
			}
		})
	}
}

func perft(p *Position, depth int) int {
	var room [MaxMoves]Move
	moves := p.Moves(room[:0])
	if depth == 1 {
		return len(moves)
	}
	n := 0
	for _, m := range moves {
		next := *p
		next.Make(m)
		n += perft(&next, depth-1)
	}
	return n
}

func mustFEN(tb testing.TB, fen string) Position {
	tb.Helper()
	p, err := ParseFEN(fen)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}
