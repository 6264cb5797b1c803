package remark

import (
	"os"
	"strings"
	"testing"

	notnil "github.com/notnil/chess"

	"clocktell/relay/bitboard"
)

// The rules library github.com/notnil/chess, which shares no code with package bitboard, and
// searches over its legal moves.

// full reports whether the long tests are asked for.
func full() bool { return os.Getenv("CLOCKTELL_TESTS") == "all" }

func notnilAt(tb testing.TB, fen string) *notnil.Position {
	tb.Helper()
	p := &notnil.Position{}
	if err := p.UnmarshalText([]byte(fen)); err != nil {
		tb.Fatalf("%s: %v", fen, err)
	}
	return p
}

// asIfOnMove returns the position with that side to move.
func asIfOnMove(tb testing.TB, p *Position, c Colour) *notnil.Position {
	tb.Helper()
	fields := strings.Fields(p.FEN())
	if p.Turn() != c {
		fields[1], fields[3] = map[Colour]string{bitboard.White: "w", bitboard.Black: "b"}[c], "-"
	}
	return notnilAt(tb, strings.Join(fields, " "))
}

var libraryValues = map[notnil.PieceType]int{notnil.Pawn: 100, notnil.Knight: 300, notnil.Bishop: 300, notnil.Rook: 500, notnil.Queen: 900}

// gainOf returns what a move captures, and what a pawn gains in becoming a piece.
func gainOf(p *notnil.Position, m *notnil.Move) int {
	gain := libraryValues[p.Board().Piece(m.S2()).Type()]
	if m.HasTag(notnil.EnPassant) {
		gain = 100
	}
	if m.Promo() != notnil.NoPieceType {
		gain += libraryValues[m.Promo()] - 100
	}
	return gain
}

// exhaustive returns the most that the side to move wins by captures on one square, all of them
// tried in every order.
func exhaustive(p *notnil.Position, on notnil.Square) int {
	most := 0
	if p.Board().Piece(on) == notnil.NoPiece {
		return 0
	}
	for _, m := range p.ValidMoves() {
		if m.S2() == on {
			most = max(most, gainOf(p, m)-exhaustive(p.Update(m), on))
		}
	}
	return most
}

// leastFound returns the least that a move wins over all replies, with what can then be won on one
// of the squares or where the reply went; ok is false if the move is not legal or a reply mates.
func leastFound(p *notnil.Position, move Move, squares []Square) (least int, ok bool) {
	m := legalMove(p, move)
	if m == nil {
		return 0, false
	}
	after := p.Update(m)
	least = 10_000
	for _, reply := range after.ValidMoves() {
		next := after.Update(reply)
		if next.Status() == notnil.Checkmate {
			return 0, false
		}
		most := exhaustive(next, reply.S2())
		for _, on := range squares {
			if piece := next.Board().Piece(notnil.Square(on)); piece.Color() == after.Turn() {
				most = max(most, exhaustive(next, notnil.Square(on)))
			}
		}
		least = min(least, gainOf(p, m)-gainOf(after, reply)+most)
	}
	return least, least < 10_000
}

func legalMove(p *notnil.Position, move Move) *notnil.Move {
	for _, m := range p.ValidMoves() {
		if m.String() == move.String() {
			return m
		}
	}
	return nil
}

// leastLost returns the least that the side to move loses, by what is then captured on the square
// or where its move went.
func leastLost(p *notnil.Position, on Square) int {
	least := 10_000
	for _, m := range p.ValidMoves() {
		next := p.Update(m)
		loss := exhaustive(next, m.S2())
		if Square(m.S1()) != on {
			loss = max(loss, exhaustive(next, notnil.Square(on)))
		}
		least = min(least, loss-gainOf(p, m))
	}
	return least
}
