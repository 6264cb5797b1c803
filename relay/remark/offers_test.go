package remark

import (
	"fmt"
	"testing"

	notnil "github.com/notnil/chess"

	"clocktell/relay/bitboard"
)

// offersWrong checks, with the library's moves and its board, what a piece costs, that there is one
// move, and what is left without queens.
func offersWrong(t *testing.T, r *Remark, one *step) string {
	view := notnilAt(t, one.after.FEN())
	switch r.Rule {
	case QueensGone:
		men := census(view)
		for i, kind := range []notnil.PieceType{notnil.Knight, notnil.Bishop, notnil.Rook} {
			for c := range both {
				if r.Pieces(c, bitboard.Knight+bitboard.PieceType(i)) != men[c][kind] || men[c][notnil.Queen] > 0 {
					return fmt.Sprint(men)
				}
			}
		}
	}
	return ""
}
