package facts

import (
	"maps"
	"testing"

	notnil "github.com/notnil/chess"

	"clocktell/relay/bitboard"
)

// TestMates: the moves that mate are those after which the library says checkmate, for
// the side to move and for the other if it is not in check; and it says so of the
// positions themselves.
func TestMates(t *testing.T) {
	mates, ended := 0, 0
	for _, p := range libraryPositions(t, 4*reviewed(), 9) {
		facts := Of(&p)
		got, want := make(map[string]Colour), make(map[string]Colour)
		for _, kind := range []Kind{MateOffer, MateThreat} {
			for _, f := range facts.Of(kind) {
				got[f.Move.String()] = f.Side
			}
		}
		for c := range both {
			if c != p.Turn() && p.InCheck() {
				continue
			}
			view := asIfOnMove(t, &p, c)
			for _, m := range view.ValidMoves() {
				if m.HasTag(notnil.Check) && view.Update(m).Status() == notnil.Checkmate {
					want[m.String()] = c
				}
			}
		}
		if !maps.Equal(got, want) {
			t.Errorf("%s: %v mate, the library says %v", p.FEN(), got, want)
		}
		mates += len(want)
		if is := notnilAt(t, p.FEN()).Status() == notnil.Checkmate; is != facts.Has(Checkmated, p.Turn()) {
			t.Errorf("%s: checkmate is %v", p.FEN(), is)
		} else if is {
			ended++
		}
	}
	t.Logf("%d mating moves, %d mates", mates, ended)
	if mates == 0 {
		t.Error("no mates: nothing was tested")
	}
}

// TestCastlingRules: what is available is legal; what is prevented is not, and becomes so
// when the named attackers are taken off the board.
func TestCastlingRules(t *testing.T) {
	available, prevented, behind := 0, 0, 0
	for _, p := range libraryPositions(t, 15*reviewed(), 10) {
		for _, f := range Of(&p) {
			if f.Side != p.Turn() && p.InCheck() {
				continue
			}
			switch f.Kind {
			case CastlingAvailable:
				available++
				if !castles(t, &p, f, 0) {
					t.Errorf("%s: not legal: %s", p.FEN(), f)
				}
			case CastlingPrevented, CastlingInCheck:
				prevented++
				if castles(t, &p, f, 0) {
					t.Errorf("%s: legal: %s", p.FEN(), f)
				}
				attackers := f.Set() & p.Side(f.Side.Other())
				if castles(t, &p, f, attackers) {
					continue
				}
				// Only those behind them on a line may still be in the way.
				behind++
				if !xray(&p, f, attackers) {
					t.Errorf("%s: not legal without the attackers: %s", p.FEN(), f)
				}
			}
		}
	}
	t.Logf("%d available, %d prevented, %d of them twice on one line", available, prevented, behind)
	if available == 0 || prevented == 0 || behind*10 > prevented {
		t.Error("too few of one sort: nothing was tested")
	}
}

// castles asks the library whether the castling is legal without those men.
func castles(t *testing.T, p *Position, f Fact, without Set) bool {
	t.Helper()
	view := asIfOnMove(t, p, f.Side)
	if without != 0 {
		board := view.Board().SquareMap()
		for s := without; s != 0; s = s.Rest() {
			delete(board, notnil.Square(s.First()))
		}
		fen := notnil.NewBoard(board).String() + " " + view.Turn().String() + " " + view.CastleRights().String() + " - 0 1"
		view = notnilAt(t, fen)
	}
	tag := notnil.KingSideCastle
	if f.Wing == QueenSide {
		tag = notnil.QueenSideCastle
	}
	for _, m := range view.ValidMoves() {
		if m.HasTag(tag) {
			return true
		}
	}
	return false
}

// xray reports whether without those men another slider attacks the king's way.
func xray(p *Position, f Fact, gone Set) bool {
	king := p.KingSquare(f.Side)
	step := map[Wing]int{KingSide: 1, QueenSide: -1}[f.Wing]
	left := p.Occupied() &^ gone
	for n := range 3 {
		attackers := p.AttackersThrough(Square(int(king)+n*step), left) & left & p.Side(f.Side.Other())
		if attackers&(p.Types(bitboard.Bishop)|p.Types(bitboard.Rook)|p.Types(bitboard.Queen)) != 0 {
			return true
		}
	}
	return false
}
