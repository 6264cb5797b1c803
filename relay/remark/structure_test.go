package remark

import (
	"fmt"
	"testing"

	notnil "github.com/notnil/chess"

	"clocktell/relay/bitboard"
)

// structureWrong checks, with the library's moves and its board, how men stand; ok is false if
// there is no check for the rule.
func structureWrong(t *testing.T, r *Remark, p *Position) (wrong string, ok bool) {
	on := r.Squares()
	switch r.Rule {
	case NoSafeSquare:
		view := asIfOnMove(t, p, r.Side)
		for _, m := range view.ValidMoves() {
			if Square(m.S1()) == on[0] && gainOf(view, m) >= exhaustive(view.Update(m), m.S2()) {
				return m.String() + " is safe", true
			}
		}
	case BackRank:
		for _, m := range asIfOnMove(t, p, r.Side).ValidMoves() {
			if Square(m.S1()) == on[0] && Square(m.S2()).Rank() != on[0].Rank() {
				return m.String() + " leaves the back rank", true
			}
		}
	case PinLasting:
		if r.Man(2).Type() != bitboard.King {
			return "", false
		}
		for _, m := range asIfOnMove(t, p, r.Side).ValidMoves() {
			if Square(m.S1()) == on[0] && !sameLine(on[2], on[1], Square(m.S2())) {
				return m.String() + " is legal", true
			}
		}
	case CastlingGivenUp:
		rights := notnilAt(t, p.FEN()).CastleRights()
		side := notnil.White + notnil.Color(r.Side)
		if rights.CanCastle(side, notnil.KingSide) || rights.CanCastle(side, notnil.QueenSide) {
			return "it has the right", true
		}
	case KnightOutpost, Hole:
		return pawnsWrong(t, r, p, r.Rule == Hole), true
	case IsolatedQueensPawn, DoubledIsolated, IsolatedAttacked:
		return isolationWrong(t, r, p), true
	default:
		return "", false
	}
	return "", true
}

// sameLine reports whether three squares lie on one line, by their coordinates.
func sameLine(a, b, c Square) bool {
	return (b.File()-a.File())*(c.Rank()-a.Rank()) == (c.File()-a.File())*(b.Rank()-a.Rank())
}

// pawnsWrong finds a pawn that could come to attack an outpost, or to guard a hole, going straight on.
func pawnsWrong(t *testing.T, r *Remark, p *Position, own bool) string {
	on := r.Squares()[0]
	side := r.Side.Other()
	if own {
		side = r.Side
	}
	for square, piece := range notnilAt(t, p.FEN()).Board().SquareMap() {
		beside, behind := int(square.File())-on.File(), on.Rank()-int(square.Rank())
		if side == bitboard.Black {
			behind = -behind
		}
		if piece.Type() == notnil.Pawn && piece.Color() == notnil.White+notnil.Color(side) && beside*beside == 1 && behind >= 1 {
			return fmt.Sprintf("the pawn on %s can come", square)
		}
	}
	return ""
}

func isolationWrong(t *testing.T, r *Remark, p *Position) string {
	pawn := r.Squares()[0]
	for square, piece := range notnilAt(t, p.FEN()).Board().SquareMap() {
		beside := int(square.File()) - pawn.File()
		if piece.Type() == notnil.Pawn && piece.Color() == notnil.White+notnil.Color(r.Side) && beside*beside == 1 {
			return fmt.Sprintf("the pawn on %s stands beside it", square)
		}
	}
	return ""
}

// TestOutsideSquare plays the pawn on, step by step, against every move of the king: it is never
// captured before it is promoted, nor on its last square.
func TestOutsideSquare(t *testing.T) {
	found, games := 0, 300
	if full() {
		games = 1000
	}
	for _, game := range libraryGames(t, games) {
		for _, one := range played(t, &game) {
			for _, r := range one.state.found {
				if r.Rule != OutsideSquare || r.Since != one.state.ply {
					continue
				}
				found++
				if !promotes(asIfOnMove(t, &one.after, one.after.Turn()), r.Squares()[0], notnil.White+notnil.Color(r.Side)) {
					t.Errorf("%s: %s: the king catches it", one.after.FEN(), r)
				}
			}
		}
	}
	t.Logf("%d pawns", found)
	if found == 0 {
		t.Error("none: nothing was tested")
	}
}

// promotes reports whether the pawn queens against every reply of the enemy king, which may do
// nothing but hunt it; pawns of the enemy are left out of the race.
func promotes(p *notnil.Position, pawn Square, side notnil.Color) bool {
	if p.Turn() == side {
		for _, m := range p.ValidMoves() {
			if Square(m.S1()) != pawn || m.HasTag(notnil.Capture) || m.Promo() != notnil.NoPieceType && m.Promo() != notnil.Queen {
				continue
			}
			next := p.Update(m)
			if m.Promo() == notnil.Queen {
				return exhaustive(next, m.S2()) == 0
			}
			if promotes(next, Square(m.S2()), side) {
				return true
			}
		}
		return false
	}
	for _, m := range p.ValidMoves() {
		if p.Board().Piece(m.S1()).Type() != notnil.King {
			continue
		}
		if Square(m.S2()) == pawn || !promotes(p.Update(m), pawn, side) {
			return false
		}
	}
	return true
}
