package facts

import (
	"testing"

	notnil "github.com/notnil/chess"

	"clocktell/relay/bitboard"
)

// TestMobilityCounted holds mobility, pieces without a safe square and the squeeze to
// counts of the library's moves and the search of exchanges.
func TestMobilityCounted(t *testing.T) {
	pieces, stuck, squeezed := 0, 0, 0
	for _, p := range libraryPositions(t, 10*reviewed(), 12) {
		if p.InCheck() {
			continue
		}
		facts := Of(&p)
		told := len(facts.Of(Squeezed))
		squeezed += told
		if told == 0 && pieces > 30*reviewed() {
			continue // counted enough, but every squeeze is looked at
		}
		got := make(map[Square]int)
		for _, f := range facts.Of(Mobility) {
			got[f.Subject()] = f.Amount
		}
		var total, men [2]int
		for c := range both {
			safe := safeMoves(asIfOnMove(t, &p, c))
			for s := p.Side(c) &^ p.Types(bitboard.Pawn) &^ p.Types(bitboard.King); s != 0; s = s.Rest() {
				on := s.First()
				if got[on] != safe[on] {
					t.Errorf("%s: %s has %d safe moves, the library %d", p.FEN(), on, got[on], safe[on])
				}
				pieces, men[c], total[c] = pieces+1, men[c]+1, total[c]+safe[on]
				home := on.Rank() == 7*int(c)
				if told := hasSubject(facts, NoSafeSquare, on); told != (safe[on] == 0 && !home) {
					t.Errorf("%s: no safe square for %s is %v", p.FEN(), on, told)
				} else if told {
					stuck++
				}
			}
		}
		for c := range both {
			want := men[0] == men[1] && men[0] >= 4 && total[c.Other()] >= 30 && 2*total[c] <= total[c.Other()]
			if facts.Has(Squeezed, c) != want {
				t.Errorf("%s: %s is squeezed: %v, with %v safe moves", p.FEN(), c, !want, total)
			}
		}
	}
	t.Logf("%d pieces, %d without a safe square, %d squeezes", pieces, stuck, squeezed)
	if stuck == 0 || squeezed == 0 {
		t.Error("none of one sort: nothing was tested")
	}
}

func safeMoves(p *notnil.Position) (safe [64]int) {
	for _, m := range p.ValidMoves() {
		if gainOf(p, m)-exhaustive(p.Update(m), Square(m.S2())) >= 0 {
			safe[m.S1()]++
		}
	}
	return safe
}

func hasSubject(facts Facts, kind Kind, on Square) bool {
	for _, f := range facts.Of(kind) {
		if f.Subject() == on {
			return true
		}
	}
	return false
}
