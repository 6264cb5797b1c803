package relay

import (
	"github.com/notnil/chess"

	"clocktell/relay/bitboard"
)

// Place returns the position after n plies.
func (b *Board) Place(n int) *bitboard.Position {
	if n == 0 {
		return &b.start.place
	}
	return &b.Plies[n-1].place
}

// HasStart reports whether the game began where its board begins. If not, its start cannot be
// read, as of many a Chess960 game, and what stands on the board is none of its positions.
func (b *Board) HasStart() bool { return b.start.fault == "" }

// Moves returns the moves from the one at index from to the one before index to.
func (b *Board) Moves(from, to int) []bitboard.Move {
	moves := make([]bitboard.Move, 0, to-from)
	for _, ply := range b.Plies[from:to] {
		moves = append(moves, bitMove(ply.Move))
	}
	return moves
}

// placeOf returns a position as the bitboards have it. One that they cannot take, such
// as a set-up without a king, is the zero position: no reference knows it.
func placeOf(p *chess.Position) bitboard.Position {
	place, err := bitboard.ParseFEN(p.String())
	if err != nil {
		return bitboard.Position{}
	}
	return place
}

// placeAfter returns the position after a move.
func placeAfter(before *bitboard.Position, move *chess.Move) bitboard.Position {
	after := *before
	if isPlace(before) {
		after.Make(bitMove(move))
	}
	return after
}

func isPlace(p *bitboard.Position) bool { return p.Occupied() != 0 }

var promotions = map[chess.PieceType]bitboard.PieceType{
	chess.Queen: bitboard.Queen, chess.Rook: bitboard.Rook, chess.Bishop: bitboard.Bishop, chess.Knight: bitboard.Knight,
}

// bitMove returns a move as the bitboards have it. Both number squares from a1 by rank.
func bitMove(m *chess.Move) bitboard.Move {
	return bitboard.NewMove(bitboard.Square(m.S1()), bitboard.Square(m.S2()), promotions[m.Promo()])
}

// worth is the usual worth of a man, in pawns.
var worth = [...]int{bitboard.Pawn: 1, bitboard.Knight: 3, bitboard.Bishop: 3, bitboard.Rook: 5, bitboard.Queen: 9, bitboard.King: 99}

// rescues reports whether a move takes a man, not the king, out of danger: it stood
// attacked by a lesser one, or attacked and not defended.
func rescues(before *bitboard.Position, move *chess.Move) bool {
	from := bitboard.Square(move.S1())
	man := before.Piece(from).Type()
	if !isPlace(before) || man == bitboard.King {
		return false
	}
	attackers := before.Attackers(from) & before.Side(before.Turn().Other())
	if attackers == 0 {
		return false
	}
	for square := range attackers.All() {
		if worth[before.Piece(square).Type()] < worth[man] {
			return true
		}
	}
	return before.Attackers(from)&before.Side(before.Turn()) == 0
}
