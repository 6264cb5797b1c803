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

// notMated searches for the mate with the library's moves, the first one given and all of the others tried.
func notMated(p *notnil.Position, r *Remark) string {
	m := legalMove(p, r.Move)
	if m == nil || !repliesMated(p.Update(m), int(r.Amount)-1) {
		return fmt.Sprintf("no mate in %d", r.Amount)
	}
	return ""
}

// repliesMated reports whether every reply is mated in so many moves.
func repliesMated(p *notnil.Position, n int) bool {
	if p.Status() == notnil.Checkmate {
		return true
	}
	for _, reply := range p.ValidMoves() {
		if next := p.Update(reply); n == 0 || !canMate(next, n) {
			return false
		}
	}
	return p.Status() != notnil.Stalemate
}

func canMate(p *notnil.Position, n int) bool {
	for _, m := range p.ValidMoves() {
		if m.HasTag(notnil.Check) && repliesMated(p.Update(m), n-1) {
			return true
		}
	}
	return false
}
