package notation

import (
	"slices"
	"testing"

	"github.com/notnil/chess"
)

// fuzzStarts are positions in which moves are written in rarer ways: castling, both
// promotions, en passant, two and three pieces that can go to one square, checks.
var fuzzStarts = []string{
	"",
	"r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1",
	"3r1n2/4P3/8/k7/8/8/5p2/K5N1 w - - 0 1",
	"3r1n2/4P3/8/k7/8/8/5p2/K5N1 b - - 0 1",
	"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2",
	"4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1",
	"3k4/8/8/Q3Q3/8/8/8/Q3K3 w - - 0 1",
	"4k3/8/8/8/4r3/8/3PPP2/3NKB2 w - - 0 1",
}

// walk plays one legal move for each byte.
func walk(pos *chess.Position, choices []byte) *chess.Position {
	const most = 60
	for _, choice := range choices[:min(len(choices), most)] {
		moves := pos.ValidMoves()
		if len(moves) == 0 {
			break
		}
		pos = pos.Update(moves[int(choice)%len(moves)])
	}
	return pos
}

// FuzzResolve resolves any text in positions reached by any legal moves. What comes
// back is one of the moves that the rules library finds, and the library's own SAN of
// it means the same move again; so does the SAN of any other legal move.
func FuzzResolve(f *testing.F) {
	f.Fuzz(func(t *testing.T, start uint8, choices []byte, text string) {
		pos := walk(position(t, fuzzStarts[int(start)%len(fuzzStarts)]), choices)
		legal := pos.ValidMoves()
		if move, err := Resolve(pos, text); err == nil {
			if !slices.ContainsFunc(legal, func(m *chess.Move) bool { return m.String() == move.String() }) {
				t.Fatalf("%q in %s is %s, which is not legal", text, pos, move)
			}
			checkResolvesAgain(t, pos, move)
		}
		if len(legal) > 0 {
			checkResolvesAgain(t, pos, legal[len(text)%len(legal)])
		}
	})
}

// checkResolvesAgain holds the resolver to the SAN that the library writes.
func checkResolvesAgain(t *testing.T, pos *chess.Position, move *chess.Move) {
	t.Helper()
	for _, text := range []string{chess.AlgebraicNotation{}.Encode(pos, move), move.String()} {
		if again, err := Resolve(pos, text); err != nil || again.String() != move.String() {
			t.Fatalf("%s in %s is %v, %v, want %s", text, pos, again, err, move)
		}
	}
}
