package remark

import (
	"clocktell/relay/bitboard"
)

// Bits of the counts of Remark.Pieces, for each of three kinds and two sides.
const (
	countBits = 2
	kindsLeft = 3
	mostLeft  = 3 // pieces of a side in an ending without queens
)

// queensGone finds an ending that has no name of its own.
func queensGone(sc *scene, c Colour) {
	few := min(sc.pieces[0], sc.pieces[1]) > 0 && max(sc.pieces[0], sc.pieces[1]) <= mostLeft
	if c == bitboard.Black || !sc.memory.queens || sc.queens[0]|sc.queens[1] != 0 || !few || sc.pieces[0]+sc.pieces[1] < 3 {
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
