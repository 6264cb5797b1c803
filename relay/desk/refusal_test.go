package desk

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/notnil/chess"
)

// TestRefusals words every way in which a move can be illegal under the Laws of Chess
// (FIDE Laws of Chess in force from 1 January 2023, articles 3.1 to 3.9); the article
// stands beside each.
func TestRefusals(t *testing.T) {
	const (
		pinned    = "4r1k1/8/8/8/8/8/4B3/4K3 w - - 0 1"
		checked   = "4r1k1/8/8/8/8/8/3P4/4K2B w - - 0 1"
		castling  = "r3k2r/8/8/8/8/8/8/RN2K2R w KQkq - 0 1"
		through   = "4k3/8/8/8/8/5r2/8/R3K2R w KQ - 0 1"
		onto      = "4k3/8/8/8/8/6r1/8/4K2R w K - 0 1"
		outOf     = "4k3/8/8/8/4r3/8/8/4K2R w K - 0 1"
		lost      = "4k3/8/8/8/8/8/8/4K2R w - - 0 1"
		promotion = "3r4/4P3/8/k7/8/8/8/4K3 w - - 0 1"
		discover  = "k3r3/8/8/3pP3/8/8/8/4K3 w - d6 0 2"
	)
	for _, test := range []struct{ article, fen, move, want string }{
		{"1.3", "", "e7e5", "White is on move, and the pawn on e7 is not White's"},
		{"3.1", "", "a1a2", "White's own pawn stands on a2"},
		{"3.1", "", "e4e5", "no man stands on e4"},
		{"3.1", "", "e2e2", "another square"},
		{"3.2", "", "c1c3", "a bishop does not go from c1 to c3"},
		{"3.3", "", "a1b3", "a rook does not go"},
		{"3.5", "", "c1f4", "the pawn on d2 stands in the way"},
		{"3.5", "", "d1d4", "the pawn on d2 stands in the way"},
		{"3.6", "", "g1g3", "a knight does not go"},
		{"3.7.1", "", "e2e5", "the pawn on e2 goes 2 ahead at most"},
		{"3.7.2", "4k3/8/4p3/8/8/4n3/4P3/4K3 w - - 0 1", "e2e4", "the knight on e3 stands in the way"},
		{"3.7.3", "", "e2d3", "nothing to take on d3"},
		{"3.7.1", "4k3/8/8/8/4P3/8/8/4K3 w - - 0 1", "e4e3", "a pawn does not go from e4 to e3"},
		{"3.7.3.3", promotion, "e7e8", "a pawn becomes a piece on e8"},
		{"3.8.1", "", "e1e3", "a king does not go"},
		{"3.8.2", castling, "e1c1", "the knight on b1 stands between king and rook"},
		{"3.8.2.1", lost, "e1g1", "can no longer castle"},
		{"3.8.2.2", outOf, "e1g1", "cannot castle out of it"},
		{"3.8.2.2", through, "e1g1", "f1, which the rook on f3 attacks"},
		{"3.8.2.2", onto, "e1g1", "g1, which the rook on g3 attacks"},
		{"3.9.2", pinned, "e2d3", "the bishop on e2 is pinned"},
		{"3.9.2", checked, "d2d4", "White is in check from the rook on e8"},
		{"3.9.2", pinned, "e1e2", "own bishop"},
		{"3.9.2", "4k3/8/8/8/8/8/r7/4K3 w - - 0 1", "e1e2", "the king would be in check on e2, from the rook on a2"},
		{"3.9.2", "k3r3/8/8/8/8/8/8/4K3 w - - 0 1", "e1e2", "the king would be in check on e2, from the rook on e8"},
		{"3.9.2", discover, "e5d6", "is pinned"},
		{"3.9.2", "8/8/8/8/k2Pp2Q/8/8/3K4 b - d3 0 1", "e4d3", "king would be in check after it"},
	} {
		tb := newTable(t)
		tb.games = append(tb.games, newPlayed(t, test.fen, ""))
		tb.follow()
		if why := tb.tries(playing(test.move)); !strings.Contains(why, test.want) {
			t.Errorf("article %s, %s in %q: %q, want %q", test.article, test.move, test.fen, why, test.want)
		}
	}
}

// TestPlaysWhatIsLegal tries every way from one square to another in positions of random
// games: what notnil/chess calls legal is played, all else is refused with a reason.
func TestPlaysWhatIsLegal(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	legal, refused := 0, 0
	for range 40 {
		g := newPlayed(t, "", "")
		for range random.IntN(80) {
			moves := g.Position(g.Plies()).ValidMoves()
			if len(moves) == 0 {
				break
			}
			g.play(t, moves[random.IntN(len(moves))].String())
		}
		position := g.Position(g.Plies())
		want := make(map[string]bool)
		for _, m := range position.ValidMoves() {
			want[m.S1().String()+m.S2().String()] = m.Promo() == chess.NoPieceType
		}
		for way := range 64 * 64 {
			text := chess.Square(way/64).String() + chess.Square(way%64).String()
			tb := &table{t: t, now: noon, state: New(), games: []*played{g}}
			tb.follow()
			why := tb.tries(playing(text))
			if (why == "") != want[text] {
				t.Fatalf("%s in %v: %q, legal: %v", text, position, why, want[text])
			}
			if why == "" {
				legal++
			} else {
				refused++
			}
			if strings.Contains(why, "not a legal move") {
				t.Fatalf("%s in %v is refused without a reason", text, position)
			}
		}
	}
	t.Logf("%d played, %d refused", legal, refused)
}
