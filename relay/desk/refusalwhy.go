package desk

import (
	"fmt"

	"clocktell/relay/bitboard"
)

// castles reports a king that was taken two files along its rank.
func castles(from, to bitboard.Square) bool {
	return from.Rank() == to.Rank() && apart(from.File(), to.File()) == 2 && from.File() == 4
}

func apart(a, b int) int { return max(a-b, b-a) }

// reaches reports that the man goes so, whatever becomes of its king.
func (a *attempt) reaches() bool {
	man := a.p.Piece(a.from)
	if man.Type() == bitboard.Pawn {
		return a.pawnReaches()
	}
	return bitboard.Attacks(a.from, man, a.p.Occupied()).Has(a.to)
}

func (a *attempt) pawnReaches() bool {
	man := a.p.Piece(a.from)
	if a.from.File() != a.to.File() {
		passed, _ := a.p.EnPassant()
		return bitboard.Attacks(a.from, man, 0).Has(a.to) && (a.p.Occupied().Has(a.to) || passed == a.to)
	}
	ahead, far := a.pawnStep()
	if ahead < 1 || ahead > far {
		return false
	}
	return !a.p.Occupied().Has(a.to) && (ahead == 1 || !a.p.Occupied().Has((a.from+a.to)/2))
}

// pawnStep returns how many squares ahead a pawn was taken, and how many it may go.
func (a *attempt) pawnStep() (ahead, far int) {
	ahead, far = a.to.Rank()-a.from.Rank(), 1
	home := 1
	if a.p.Turn() == bitboard.Black {
		ahead, home = -ahead, 6
	}
	if a.from.Rank() == home {
		far = 2
	}
	return ahead, far
}

// whyNotThere says that the man does not go so, or what stands in its way.
func (a *attempt) whyNotThere() string {
	man := a.p.Piece(a.from)
	if man.Type() == bitboard.Pawn {
		return a.whyNoPawnMove()
	}
	if !bitboard.Attacks(a.from, man, 0).Has(a.to) {
		return fmt.Sprintf("a %s does not go from %v to %v", a.name(a.from), a.from, a.to)
	}
	square := a.inTheWay()
	return fmt.Sprintf("the %s on %v stands in the way", a.name(square), square)
}

func (a *attempt) whyNoPawnMove() string {
	man := a.p.Piece(a.from)
	ahead, far := a.pawnStep()
	switch {
	case a.from.File() != a.to.File() && bitboard.Attacks(a.from, man, 0).Has(a.to):
		return fmt.Sprintf("a pawn goes aslant only to take, and there is nothing to take on %v", a.to)
	case a.from.File() != a.to.File() || ahead < 1:
		return fmt.Sprintf("a pawn does not go from %v to %v", a.from, a.to)
	case ahead > far:
		return fmt.Sprintf("the pawn on %v goes %d ahead at most", a.from, far)
	}
	square := a.inTheWay()
	return fmt.Sprintf("the %s on %v stands in the way", a.name(square), square)
}

// inTheWay returns the first man met from one square to the other.
func (a *attempt) inTheWay() bitboard.Square {
	file, rank := sign(a.to.File()-a.from.File()), sign(a.to.Rank()-a.from.Rank())
	square := a.from
	for square != a.to {
		square = bitboard.NewSquare(square.File()+file, square.Rank()+rank)
		if a.p.Occupied().Has(square) {
			break
		}
	}
	return square
}

func sign(n int) int { return min(1, max(-1, n)) }

// whyNotCastle goes through the conditions of castling in the order in which people ask
// for them.
func (a *attempt) whyNotCastle() string {
	side, them := a.p.Turn(), a.p.Turn().Other()
	step := sign(a.to.File() - a.from.File())
	corner := bitboard.NewSquare(0, a.from.Rank())
	if step > 0 {
		corner = bitboard.NewSquare(7, a.from.Rank())
	}
	if !a.p.Castles(side).Has(corner) {
		return fmt.Sprintf("%s can no longer castle there: the king or that rook has moved, or the rook is gone", sideName(&a.p))
	}
	for file := a.from.File() + step; file != corner.File(); file += step {
		if square := bitboard.NewSquare(file, a.from.Rank()); a.p.Occupied().Has(square) {
			return fmt.Sprintf("the %s on %v stands between king and rook", a.name(square), square)
		}
	}
	if a.p.InCheck() {
		return fmt.Sprintf("%s is in check, and cannot castle out of it", sideName(&a.p))
	}
	through := bitboard.NewSquare(a.from.File()+step, a.from.Rank())
	for _, square := range []bitboard.Square{through, a.to} {
		if by := a.p.Attackers(square) & a.p.Side(them); by != 0 {
			return fmt.Sprintf("the king cannot castle over or onto %v, which the %s on %v attacks", square, a.name(by.First()), by.First())
		}
	}
	return "the king cannot castle here"
}

// whyUnsafe says why a move that the man could make leaves its king to be taken.
func (a *attempt) whyUnsafe() string {
	side, them := a.p.Turn(), a.p.Turn().Other()
	king := a.p.KingSquare(side)
	switch {
	case a.from == king:
		by := a.p.AttackersThrough(a.to, a.p.Occupied()&^bitboard.SetOf(king)) & a.p.Side(them) &^ bitboard.SetOf(a.to)
		if by != 0 {
			return fmt.Sprintf("the king would be in check on %v, from the %s on %v", a.to, a.name(by.First()), by.First())
		}
	case a.p.InCheck():
		by := a.p.Checkers().First()
		return fmt.Sprintf("%s is in check from the %s on %v, and this does not answer it", sideName(&a.p), a.name(by), by)
	case a.p.Pinned(side).Has(a.from):
		return fmt.Sprintf("the %s on %v is pinned: its king would be in check", a.name(a.from), a.from)
	}
	return fmt.Sprintf("%s's king would be in check after it", sideName(&a.p))
}
