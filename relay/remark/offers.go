package remark

import (
	"clocktell/relay/bitboard"
)

// onlyFrom is the move from which a single legal move is worth a word.
const onlyFrom = 10

// onlyMove finds a check that leaves one move, which drives the king forward.
func onlyMove(sc *scene, c Colour) {
	enemy := c.Other()
	if c != sc.turn || !sc.inCheck || sc.number() < onlyFrom || sc.queens[enemy] == 0 && sc.pieces[enemy] < 2 {
		return
	}
	var room [bitboard.MaxMoves]Move
	moves := sc.p.Moves(room[:0])
	if len(moves) != 1 || sc.p.Checkers().Has(moves[0].To()) {
		return
	}
	if m := moves[0]; m.From() != sc.p.KingSquare(c) || homeward(c, m.To()).Rank() <= homeward(c, m.From()).Rank() {
		return // it only steps aside, or a man comes between
	}
	sc.add(OnlyMove, c, sc.p.KingSquare(c), first(c, sc.p.Checkers())).Move = moves[0]
}

// Bits of the counts of Remark.Pieces, for each of three kinds and two sides.
const (
	countBits = 2
	kindsLeft = 3
	mostLeft  = 3 // pieces of a side in an ending without queens
)

// queensGone finds an ending that has no name of its own.
func queensGone(sc *scene, c Colour) {
	few := min(sc.pieces[0], sc.pieces[1]) > 0 && max(sc.pieces[0], sc.pieces[1]) <= mostLeft
	if c == bitboard.Black || sc.queens[0]|sc.queens[1] != 0 || !few || sc.pieces[0]+sc.pieces[1] < 3 {
		return
	}
	amount := 0
	for side := range both {
		for t := bitboard.Knight; t <= bitboard.Rook; t++ {
			at := int(side)*kindsLeft + int(t-bitboard.Knight)
			amount |= sc.p.Pieces(side, t).Count() << (countBits * at)
		}
	}
	for i := range sc.found {
		if r := sc.found[i].Rule; r == EndingBegun {
			return
		}
	}
	sc.add(QueensGone, c).Amount = int16(amount)
}

// Pieces returns how many pieces of a kind, knight to rook, a side has by a remark of QueensGone.
func (r *Remark) Pieces(c Colour, t bitboard.PieceType) int {
	at := int(c)*kindsLeft + int(t-bitboard.Knight)
	return int(r.Amount) >> (countBits * at) & (1<<countBits - 1)
}
