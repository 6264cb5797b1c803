package desk

import (
	"errors"
	"fmt"

	"github.com/notnil/chess"

	"clocktell/relay/bitboard"
)

// refusal says why a move cannot be played, in words for whoever tried it: what is wrong
// with it under the Laws of Chess (FIDE, 2023, articles 3.1 to 3.9). Text is two squares,
// and a letter for a promotion, or else a move whose own error is all there is to say.
func refusal(position *chess.Position, text string, err error) error {
	if len(text) < 4 || len(text) > 5 || !isSquare(text[:2]) || !isSquare(text[2:4]) {
		return err
	}
	p, badPosition := bitboard.ParseFEN(position.String())
	if badPosition != nil {
		return err
	}
	try := attempt{p: p}
	try.from, _ = bitboard.ParseSquare(text[:2])
	try.to, _ = bitboard.ParseSquare(text[2:4])
	return errors.New(try.why())
}

// attempt is a move that was tried and is not legal.
type attempt struct {
	p        bitboard.Position
	from, to bitboard.Square
}

var pieceNames = map[bitboard.PieceType]string{
	bitboard.Pawn: "pawn", bitboard.Knight: "knight", bitboard.Bishop: "bishop", bitboard.Rook: "rook", bitboard.Queen: "queen", bitboard.King: "king",
}

func sideName(p *bitboard.Position) string {
	if p.Turn() == bitboard.White {
		return "White"
	}
	return "Black"
}

func (a *attempt) name(square bitboard.Square) string { return pieceNames[a.p.Piece(square).Type()] }

func (a *attempt) why() string {
	own, side := a.p.Side(a.p.Turn()), sideName(&a.p)
	switch {
	case !a.p.Occupied().Has(a.from):
		return fmt.Sprintf("no man stands on %v", a.from)
	case !own.Has(a.from):
		return fmt.Sprintf("%s is on move, and the %s on %v is not %s's", side, a.name(a.from), a.from, side)
	case a.from == a.to:
		return "a move goes to another square"
	case own.Has(a.to):
		return fmt.Sprintf("%s's own %s stands on %v", side, a.name(a.to), a.to)
	case a.becomesPiece():
		return fmt.Sprintf("a pawn becomes a piece on %v: say which, with q, r, b or n behind the squares", a.to)
	case a.p.Piece(a.from).Type() == bitboard.King && castles(a.from, a.to):
		return a.whyNotCastle()
	case !a.reaches():
		return a.whyNotThere()
	}
	return a.whyUnsafe()
}

// becomesPiece reports a promotion that is legal but for the piece it does not name.
func (a *attempt) becomesPiece() bool {
	return a.p.IsLegal(bitboard.NewMove(a.from, a.to, bitboard.Queen))
}
