package facts

import (
	"slices"
	"testing"

	notnil "github.com/notnil/chess"

	"clocktell/relay/bitboard"
)

// TestPinnedMen: the moves of an absolutely pinned man that leave the line are none of
// the legal ones, and off the line it has some that are legal when the pinner is gone.
func TestPinnedMen(t *testing.T) {
	pins := 0
	for _, p := range libraryPositions(t, 5*reviewed(), 5) {
		for _, f := range Of(&p).Of(AbsolutePin) {
			if f.Side != p.Turn() {
				continue
			}
			pins++
			man, pinner, king := f.Squares()[0], f.Squares()[1], f.Squares()[2]
			for _, m := range notnilAt(t, p.FEN()).ValidMoves() {
				if Square(m.S1()) == man && !sameLine(king, pinner, Square(m.S2())) {
					t.Errorf("%s: %s is legal for %s", p.FEN(), m, f)
				}
			}
			if sameLine(king, pinner, man) {
				continue
			}
			t.Errorf("%s: no line: %s", p.FEN(), f)
		}
	}
	t.Logf("%d pinned men", pins)
	if pins == 0 {
		t.Error("no pins: nothing was tested")
	}
}

// sameLine reports whether three squares lie on one line, by their coordinates.
func sameLine(a, b, c Square) bool {
	return (b.File()-a.File())*(c.Rank()-a.Rank()) == (c.File()-a.File())*(b.Rank()-a.Rank())
}

// TestTrappedLoses: for every man that hangs and cannot move safely, the search over all
// legal moves of its side says whether it is lost, and Trapped says the same.
func TestTrappedLoses(t *testing.T) {
	trapped, saved := 0, 0
	for _, p := range libraryPositions(t, 20*reviewed(), 6) {
		if p.InCheck() {
			continue
		}
		facts := Of(&p)
		lost := make(map[Square]int)
		for _, f := range facts.Of(Trapped) {
			lost[f.Subject()] = f.Amount
		}
		for _, f := range facts.Of(Hanging) {
			man := f.Pieces()[0].Type()
			if man == bitboard.Pawn {
				continue
			}
			want := leastLoss(asIfOnMove(t, &p, f.Side), f.Subject())
			if got := lost[f.Subject()]; got != max(0, want) {
				t.Errorf("%s: %s: trapped loses %d, the search says %d", p.FEN(), f, got, want)
			}
			if want > 0 {
				trapped++
			} else {
				saved++
			}
		}
	}
	t.Logf("%d trapped, %d others that hang", trapped, saved)
	if trapped == 0 || saved == 0 {
		t.Error("none of one sort: nothing was tested")
	}
}

// leastLoss returns the least that the side to move loses, by what is then captured on
// the square or where its move has gone; 0 without a move.
func leastLoss(p *notnil.Position, on Square) int {
	least := kingValue
	for _, m := range p.ValidMoves() {
		next := p.Update(m)
		loss := exhaustive(next, Square(m.S2()))
		if Square(m.S1()) != on {
			loss = max(loss, exhaustive(next, on))
		}
		least = min(least, loss-gainOf(p, m))
	}
	return least % kingValue
}

// TestTrappable: the move is legal and safe, and after it the piece is lost.
func TestTrappable(t *testing.T) {
	found := 0
	for _, p := range libraryPositions(t, 20*reviewed(), 7) {
		for _, f := range Of(&p).Of(Trappable) {
			found++
			view := asIfOnMove(t, &p, f.Side.Other())
			m := legal(t, view, f.Move)
			next := view.Update(m)
			if gainOf(view, m)-exhaustive(next, Square(m.S2())) < 0 {
				t.Errorf("%s: the move is not safe: %s", p.FEN(), f)
			}
			if loss := leastLoss(next, f.Subject()); loss != f.Amount {
				t.Errorf("%s: the search says %d: %s", p.FEN(), loss, f)
			}
		}
	}
	t.Logf("%d pieces that can be trapped", found)
	if found == 0 {
		t.Error("none: nothing was tested")
	}
}

// legal returns the library's move, and fails the test if there is none.
func legal(t *testing.T, p *notnil.Position, m Move) *notnil.Move {
	t.Helper()
	i := slices.IndexFunc(p.ValidMoves(), func(v *notnil.Move) bool { return v.String() == m.String() })
	if i < 0 {
		t.Fatalf("%s: %s is not legal", p, m)
	}
	return p.ValidMoves()[i]
}

// TestForksWin: a fork, skewer or discovered attack is a legal move, and after every reply the search finds what the fact promises.
func TestForksWin(t *testing.T) {
	found := make(map[Kind]int)
	for _, p := range libraryPositions(t, 30*reviewed(), 8) {
		view := notnilAt(t, p.FEN())
		for _, f := range Of(&p) {
			targets := f.Squares()
			switch f.Kind {
			case Fork, Skewer:
				targets = targets[2:]
			case DiscoveredAttack:
				targets = targets[3:]
			default:
				continue
			}
			found[f.Kind]++
			if won := leastWon(t, view, f.Move, targets); won != f.Amount || won <= 0 {
				t.Errorf("%s: the search says %d: %s", p.FEN(), won, f)
			}
		}
	}
	t.Logf("%d forks, %d skewers, %d discovered attacks", found[Fork], found[Skewer], found[DiscoveredAttack])
	if len(found) < 3 {
		t.Error("not all of them: nothing was tested")
	}
}

func leastWon(t *testing.T, view *notnil.Position, move Move, targets []Square) int {
	t.Helper()
	m := legal(t, view, move)
	after := view.Update(m)
	least := kingValue
	for _, reply := range after.ValidMoves() {
		next := after.Update(reply)
		most := 0
		for _, on := range append(slices.Clone(targets), Square(reply.S2())) {
			if piece := next.Board().Piece(notnil.Square(on)); piece.Color() == after.Turn() {
				most = max(most, exhaustive(next, on))
			}
		}
		least = min(least, gainOf(view, m)-gainOf(after, reply)+most)
	}
	return least
}
