package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

func findPawns() {
	finders[facts.Passed] = passed
	finders[facts.ProtectedPassed] = protectedPassed
	finders[facts.Isolated] = isolated
	finders[facts.Doubled] = doubled
	finders[facts.Backward] = backward
	finders[facts.Majority] = majority
	ownFinders = append(ownFinders, connected, centreClosed)
	moments[PasserNew], moments[PasserProtected] = passerMoment, passerMoment
	moments[PasserFar] = farMoment
	moments[PassersConnected] = func(sc *scene, r *Remark) bool { return !sc.pawnless(r.Side.Other()) }
}

// How far from the last rank a passed pawn is worth a word.
const (
	farLeft     = 2 // it has come far
	farEnough   = 4 // it is new
	blockedLeft = 3 // it is blocked
	pairRank    = 4 // the index of the rank where two of them are
)

func passed(sc *scene, f *facts.Fact) {
	on := f.Subject()
	switch {
	case f.Amount <= farLeft:
		sc.add(PasserFar, f.Side, on).Amount = int16(f.Amount)
	case f.Amount <= farEnough:
		sc.add(PasserNew, f.Side, on)
	}
	switch {
	case f.Amount > farEnough:
	case f.Amount <= farLeft && sc.move != bitboard.NoMove && sc.move.To() != on && !sc.stood():
		sc.drop() // it has long been there, and is only passed now
	case sc.hangs(f.Side, on) && sc.spoken():
		sc.drop() // one not spoken of may stop hanging: it is then as old as it is
	}
	if f.Amount <= blockedLeft {
		blocked(sc, f)
	}
	outside(sc, f)
	backed(sc, f)
}

// blocked finds the man ahead of a passed pawn, since it moved there.
func blocked(sc *scene, f *facts.Fact) {
	ahead := f.Subject() + 8 - 16*Square(f.Side)
	man := sc.p.Piece(ahead)
	if man == bitboard.NoPiece || man.Colour() == f.Side || man.Type() != bitboard.Knight && man.Type() != bitboard.Bishop {
		return
	}
	if sc.hangs(f.Side, f.Subject()) || sc.hangs(f.Side.Other(), ahead) {
		return
	}
	sc.add(PasserBlocked, f.Side, f.Subject(), ahead)
	if sc.move.To() != ahead && !sc.stood() {
		sc.drop()
	}
}

// outside applies the rule of the square.
func outside(sc *scene, f *facts.Fact) {
	enemy, pawn := f.Side.Other(), f.Subject()
	if sc.pieces[0] > 0 || sc.pieces[1] > 0 || sc.inCheck {
		return
	}
	king := homeward(f.Side, sc.p.KingSquare(enemy))
	on := homeward(f.Side, pawn)
	way := bitboard.FileSet(on.File())
	for rank := range on.Rank() + 1 {
		way &^= bitboard.RankSet(rank)
	}
	occupied := sc.p.Occupied()
	occupied = flipped(f.Side, occupied)
	left := f.Amount
	if on.Rank() == 1 {
		left-- // it can go two
	}
	distance := max(7-king.Rank(), absolute(king.File()-on.File()))
	if sc.turn == enemy {
		distance--
	}
	if way&occupied == 0 && distance > left && !sc.races(enemy, left) {
		sc.add(OutsideSquare, f.Side, pawn, sc.p.KingSquare(enemy))
	}
}

// races reports whether the side has a passed pawn that may promote as soon as another in so many moves.
func (sc *scene) races(c Colour, left int) bool {
	for i := range sc.facts {
		if f := &sc.facts[i]; f.Kind == facts.Passed && f.Side == c && f.Amount <= left+1 {
			return true
		}
	}
	return false
}

func protectedPassed(sc *scene, f *facts.Fact) {
	if f.Amount <= farEnough && f.Amount > farLeft {
		sc.add(PasserProtected, f.Side, f.Squares()[:2]...)
	}
}

// connected pairs the passed pawns of a side.
func connected(sc *scene, c Colour) {
	var room [8]Square
	list := room[:0]
	for i := range sc.facts {
		if f := &sc.facts[i]; f.Kind == facts.Passed && f.Side == c && !sc.hangs(c, f.Subject()) {
			list = append(list, f.Subject())
		}
	}
	pairs(sc, c, list)
	for i, a := range list {
		for _, b := range list[i+1:] {
			x, y := homeward(c, a), homeward(c, b)
			if absolute(x.File()-y.File()) == 1 && absolute(x.Rank()-y.Rank()) <= 1 && max(x.Rank(), y.Rank()) >= 3 {
				if b.File() < a.File() {
					a, b = b, a
				}
				sc.add(PassersConnected, c, a, b)
				return
			}
		}
	}
}

// pairs finds two passed pawns that have come far apart from each other.
func pairs(sc *scene, c Colour, list []Square) {
	for i, a := range list {
		for _, b := range list[i+1:] {
			apart := absolute(a.File()-b.File()) > 1
			if !apart || min(homeward(c, a).Rank(), homeward(c, b).Rank()) < pairRank || sc.pawnless(c.Other()) {
				continue
			}
			if b.File() < a.File() {
				a, b = b, a
			}
			sc.add(PassersFar, c, a, b)
			return
		}
	}
}

func absolute(n int) int { return max(n, -n) }

func isolated(sc *scene, f *facts.Fact) {
	underFireFromFile(sc, f, IsolatedAttacked)
	on := homeward(f.Side, f.Subject())
	file := bitboard.FileSet(on.File())
	if on.File() != 3 || on.Rank() != 3 || sc.pieces[0] < 4 || sc.pieces[1] < 4 {
		return
	}
	if file&sc.p.Pieces(f.Side.Other(), bitboard.Pawn) != 0 || (file&sc.p.Pieces(f.Side, bitboard.Pawn)).Rest() != 0 {
		return
	}
	sc.add(IsolatedQueensPawn, f.Side, f.Subject())
}

func doubled(sc *scene, f *facts.Fact) {
	var alone Set
	for i := range sc.facts {
		if one := &sc.facts[i]; one.Kind == facts.Isolated && one.Side == f.Side {
			alone |= bitOf(one.Subject())
		}
	}
	if file := f.Subject().File(); f.Set()&^alone == 0 && file > 0 && file < 7 && !sc.has(facts.Doubled, f.Side.Other()) {
		sc.add(DoubledIsolated, f.Side, f.Squares()...)
	}
}

func backward(sc *scene, f *facts.Fact) { underFireFromFile(sc, f, BackwardAttacked) }

// underFireFromFile finds a rook that attacks a pawn along its file. A passed pawn is no weakness.
func underFireFromFile(sc *scene, f *facts.Fact, rule Rule) {
	pawn := f.Subject()
	rooks := sc.p.Attackers(pawn) & sc.rooks(f.Side.Other()) & bitboard.FileSet(pawn.File())
	own := sc.p.Pieces(f.Side.Other(), bitboard.Pawn) & bitboard.FileSet(pawn.File())
	few := min(sc.pieces[0], sc.pieces[1]) < weakPieces || sc.p.Types(bitboard.Pawn).Count() < weakPawns
	if rooks == 0 || own != 0 || few || sc.hangs(f.Side, pawn) || sc.isPassed(pawn) || sc.mutual(f.Side) {
		return
	}
	sc.add(rule, f.Side, pawn, first(f.Side, rooks))
}

// weakPieces and weakPawns are the fewest pieces of each side, and pawns of both, while a weak pawn matters.
const (
	weakPieces = 3
	weakPawns  = 8
)

// mutual reports that a rook of the side attacks an isolated or backward pawn of the other as well.
func (sc *scene) mutual(c Colour) bool {
	for i := range sc.facts {
		f := &sc.facts[i]
		weak := f.Kind == facts.Isolated || f.Kind == facts.Backward
		if weak && f.Side != c && sc.p.Attackers(f.Subject())&sc.rooks(c) != 0 {
			return true
		}
	}
	return false
}

func (sc *scene) isPassed(pawn Square) bool {
	for i := range sc.facts {
		if f := &sc.facts[i]; f.Kind == facts.Passed && f.Subject() == pawn {
			return true
		}
	}
	return false
}

// backed finds a rook behind a passed pawn.
func backed(sc *scene, f *facts.Fact) {
	pawn := f.Subject()
	if sc.queens[0]|sc.queens[1] != 0 || sc.rooks(f.Side.Other()) == 0 || f.Amount > 5 {
		return
	}
	for s := sc.p.Attackers(pawn) & sc.rooks(f.Side) & bitboard.FileSet(pawn.File()); s != 0; s = s.Rest() {
		if homeward(f.Side, s.First()).Rank() < homeward(f.Side, pawn).Rank() {
			sc.add(PasserBacked, f.Side, pawn, s.First())
			if sc.move.To() != s.First() && !sc.stood() {
				sc.drop()
			}
			return
		}
	}
}

func majority(sc *scene, f *facts.Fact) {
	if !sc.ending() || sc.has(facts.Passed, 0) || sc.has(facts.Passed, 1) || sc.pieces[0] == 0 && sc.pieces[1] == 0 {
		return
	}
	for i := range sc.facts {
		if o := &sc.facts[i]; o.Kind == facts.Majority && o.Side != f.Side && o.Wing != f.Wing {
			if sc.has(facts.Doubled, f.Side) {
				return // one that may make no passed pawn
			}
			r := sc.add(WingMajority, f.Side)
			r.Wing, r.Amount = f.Wing, int16(f.Amount)
		}
	}
}
