package facts

import (
	"strings"
	"testing"

	notnil "github.com/notnil/chess"

	"clocktell/relay/bitboard"
)

// The checks in this file and its neighbours use nothing but the moves that
// github.com/notnil/chess v1.10.0 calls legal, and values written down again here.

// notnilAt returns a position as that library has it.
func notnilAt(tb testing.TB, fen string) *notnil.Position {
	tb.Helper()
	p := &notnil.Position{}
	if err := p.UnmarshalText([]byte(fen)); err != nil {
		tb.Fatalf("%s: %v", fen, err)
	}
	return p
}

// otherFEN returns the position with the other side to move.
func otherFEN(p *Position) string {
	fields := strings.Fields(p.FEN())
	fields[1] = map[string]string{"w": "b", "b": "w"}[fields[1]]
	fields[3] = "-"
	return strings.Join(fields, " ")
}

// asIfOnMove returns the position with that side to move.
func asIfOnMove(tb testing.TB, p *Position, c Colour) *notnil.Position {
	tb.Helper()
	if p.Turn() == c {
		return notnilAt(tb, p.FEN())
	}
	return notnilAt(tb, otherFEN(p))
}

func valueOf(t notnil.PieceType) int {
	switch t {
	case notnil.Pawn:
		return 100
	case notnil.Knight, notnil.Bishop:
		return 300
	case notnil.Rook:
		return 500
	case notnil.Queen:
		return 900
	}
	return 0
}

// gainOf returns what a move captures, and what a pawn gains in becoming a piece.
func gainOf(p *notnil.Position, m *notnil.Move) int {
	gain := valueOf(p.Board().Piece(m.S2()).Type())
	if m.HasTag(notnil.EnPassant) {
		gain = 100
	}
	if m.Promo() != notnil.NoPieceType {
		gain += valueOf(m.Promo()) - 100
	}
	return gain
}

// exhaustive returns the most that the side to move wins by captures on one square, all
// of them tried in every order.
func exhaustive(p *notnil.Position, on Square) int {
	most := 0
	if p.Board().Piece(notnil.Square(on)) == notnil.NoPiece {
		return 0
	}
	for _, m := range p.ValidMoves() {
		if m.S2() == notnil.Square(on) {
			most = max(most, gainOf(p, m)-exhaustive(p.Update(m), on))
		}
	}
	return most
}

// reviewed returns how many positions of the library's games these checks look at.
func reviewed() int {
	if full() {
		return 2000
	}
	return 100
}

// TestPassed holds the move that does nothing to the FEN with the other side to move.
func TestPassed(t *testing.T) {
	for _, p := range libraryPositions(t, reviewed(), 3) {
		if p.InCheck() {
			continue
		}
		got, want := passed(&p), position(t, otherFEN(&p))
		if got.Hash() != want.Hash() || strings.Join(strings.Fields(got.FEN())[:4], " ") != strings.Join(strings.Fields(want.FEN())[:4], " ") {
			t.Fatalf("%s passed is %s", p.FEN(), got.FEN())
		}
	}
}

// TestExchangeExhaustive holds what is hanging, and the exchange on every other man, to
// trying all captures on the square, for both sides; and the outcome of every move to the
// same.
func TestExchangeExhaustive(t *testing.T) {
	squares, won, moves := 0, 0, 0
	for _, p := range libraryPositions(t, reviewed(), 4) {
		facts := Of(&p)
		hanging := make(map[Square]int)
		for _, f := range facts.Of(Hanging) {
			hanging[f.Subject()] = f.Amount
		}
		for c := range both {
			if c != p.Turn() && p.InCheck() {
				continue
			}
			view := asIfOnMove(t, &p, c)
			for s := p.Side(c.Other()) &^ p.Types(bitboard.King); s != 0; s = s.Rest() {
				want := exhaustive(view, s.First())
				if got := hanging[s.First()]; got != want {
					t.Errorf("%s: %s wins %d on %s, the search %d", p.FEN(), c, got, s.First(), want)
				}
				squares++
				if want > 0 {
					won++
				}
			}
		}
		moves += compareOutcomes(t, &p)
	}
	t.Logf("%d men, %d of them hanging; outcomes of %d moves", squares, won, moves)
	if won == 0 {
		t.Error("nothing hangs in any position: nothing was tested")
	}
}

func compareOutcomes(t *testing.T, p *Position) int {
	view := notnilAt(t, p.FEN())
	e := newExchange(p)
	for _, m := range view.ValidMoves() {
		move := bitboard.NewMove(Square(m.S1()), Square(m.S2()), typeOf(m.Promo()))
		want := gainOf(view, m) - exhaustive(view.Update(m), Square(m.S2()))
		if got := e.outcome(move); got != want {
			t.Errorf("%s: outcome of %s is %d, the search has %d", p.FEN(), move, got, want)
		}
	}
	return len(view.ValidMoves())
}

func typeOf(t notnil.PieceType) PieceType {
	return map[notnil.PieceType]PieceType{
		notnil.Queen: bitboard.Queen, notnil.Rook: bitboard.Rook,
		notnil.Bishop: bitboard.Bishop, notnil.Knight: bitboard.Knight,
	}[t]
}
