package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// How many plies back some moments look.
const (
	newsOfPasser = 6 // a pawn became passed no longer ago
	newsPawns    = 6 // pawns of both sides while one that is passed is news
	newsOfLevel  = 5 // material was uneven no longer ago
	kingTold     = 6 // of the king that cannot castle something else was said
	fileTold     = 6 // of the rook or queen on the file something else was said
	menTold      = 8 // of what men there are
	nearKing     = 2 // squares from a man on an open file
	mateTold     = 2 // a mate was threatened
)

// promotable reports that a pawn of either side stands on its seventh rank with its way free:
// what is counted now may not count long.
func (sc *scene) promotable() bool {
	for c := range both {
		ahead := 8 - 16*Square(c)
		for s := sc.p.Pieces(c, bitboard.Pawn) & bitboard.RankSet(6-5*int(c)); s != 0; s = s.Rest() {
			if sc.p.Piece(s.First()+ahead) == bitboard.NoPiece {
				return true
			}
		}
	}
	return false
}

// pawnless reports that the side has no pawns.
func (sc *scene) pawnless(c Colour) bool { return sc.p.Pieces(c, bitboard.Pawn) == 0 }

// heard reports whether one of the rules was spoken of about a side within so many plies.
func (sc *scene) heard(side Colour, plies int, list ...Rule) bool {
	for _, one := range sc.earlier.said {
		for _, rule := range list {
			if one.rule == rule && one.side == side && int(sc.earlier.ply+1-one.ply) <= plies {
				return true
			}
		}
	}
	return false
}

// passerMoment is when a passed pawn is worth a word because it is there: it has become one lately,
// no other of the side is further, the enemy has pawns, and none that has come far.
func passerMoment(sc *scene, r *Remark) bool {
	enemy, pawn := r.Side.Other(), r.subject()
	since := sc.memory.passers[r.Side][pawn.File()]
	if sc.pawnless(enemy) || sc.p.Types(bitboard.Pawn).Count() < newsPawns || sc.otherPassers(pawn) || sc.hangs(r.Side, pawn) || int(sc.earlier.ply+1-since) > newsOfPasser {
		return false
	}
	for i := range sc.facts {
		f := &sc.facts[i]
		if f.Kind != facts.Passed {
			continue
		}
		on := homeward(f.Side, f.Subject()).Rank()
		if f.Side == enemy && on >= 7-farLeft || f.Side == r.Side && on > homeward(r.Side, pawn).Rank() {
			return false
		}
	}
	return true
}

// otherPassers reports that another pawn is passed too, or that a man of the other side stands before it.
func (sc *scene) otherPassers(pawn Square) bool {
	for i := range sc.facts {
		f := &sc.facts[i]
		if f.Kind == facts.Passed && f.Subject() != pawn {
			return true
		}
		if f.Kind == facts.Passed && sc.p.Piece(pawn+8-16*Square(f.Side)) != bitboard.NoPiece {
			return true
		}
	}
	return false
}

// farMoment: of a pawn that has come far nothing is said in an exchange, in check, when a piece or
// the pawn hangs, or when it or another man of
// its side has just been said to threaten mate.
func farMoment(sc *scene, r *Remark) bool {
	calm := !sc.captured && !sc.inCheck && (sc.hanging[0]|sc.hanging[1])&^sc.p.Types(bitboard.Pawn) == 0
	ahead := r.subject() + 8 - 16*Square(r.Side)
	enemy := r.Side.Other()
	free := sc.p.Piece(ahead) == bitboard.NoPiece && (sc.turn == r.Side || sc.p.Attackers(ahead)&sc.p.Side(enemy) == 0)
	promotes := r.Amount == 1 && free
	falls := r.Amount == 1 && sc.turn == enemy && sc.p.Attackers(r.subject())&sc.p.Side(enemy) != 0
	for i := range sc.facts {
		if f := &sc.facts[i]; f.Kind == facts.Passed && f.Side == enemy && f.Amount < int(r.Amount) {
			return false // half a move behind a race
		}
	}
	return calm && !promotes && !falls && !sc.hangs(r.Side, r.subject()) && !sc.heard(r.Side, mateTold, MateThreatened, MateHere)
}

// unchecked: nobody is in check.
func unchecked(sc *scene, _ *Remark) bool { return !sc.inCheck }

// fileMoment: nothing has been said lately of a rook or queen of the side on an open file.
func fileMoment(sc *scene, r *Remark) bool {
	return !sc.heard(r.Side.Other(), fileTold, CentreOpen, FileToKing, PinLasting)
}

// fileToKingMoment: nobody is in check, the king has not just come there, and the man on the file is safe, and
// not next to the king.
func fileToKingMoment(sc *scene, r *Remark) bool {
	king, man := r.Squares()[0], r.Squares()[1]
	far := max(absolute(king.File()-man.File()), absolute(king.Rank()-man.Rank()))
	return !sc.inCheck && far > nearKing && sc.move.To() != king && sc.p.Attackers(man)&sc.p.Side(r.Side) == 0
}

// outpostMoment: a pawn that guards the knight stands and is not won.
func outpostMoment(sc *scene, r *Remark) bool {
	for _, pawn := range r.Squares()[1:] {
		around := sc.p.Attackers(pawn)
		if !sc.hangs(r.Side, pawn) && (around&sc.p.Side(r.Side.Other()) == 0 || around&sc.p.Side(r.Side) != 0) {
			return true
		}
	}
	return false
}

// kingMoment: no check, and nothing else was said lately of that king in the centre.
func kingMoment(sc *scene, r *Remark) bool {
	return !sc.inCheck && !sc.heard(r.Side, kingTold, CastlingGivenUp, CentreOpen, KingLate, CastlingPrevented)
}

// givenUpMoment: as kingMoment, and the king does not go behind three whole pawns on foot.
func givenUpMoment(sc *scene, r *Remark) bool {
	king := homeward(r.Side, r.subject())
	cover := 0
	for file := 5; file < 8; file++ {
		if flipped(r.Side, sc.p.Pieces(r.Side, bitboard.Pawn))&bitboard.FileSet(file)&(bitboard.RankSet(1)|bitboard.RankSet(2)) != 0 {
			cover++
		}
	}
	return kingMoment(sc, r) && (king.File() != 5 || cover < 3)
}

// balanceMoment: not even a pawn hangs, which would change the count, and the men were not just named.
func balanceMoment(sc *scene, _ *Remark) bool {
	return sc.hanging[0]|sc.hanging[1] == 0 && !sc.listed()
}

// listed reports that the men of both sides were named just now.
func (sc *scene) listed() bool {
	return sc.heard(bitboard.White, menTold, EndingBegun, QueensGone, OppositeBishops)
}

// structureMost is by how much one side may be ahead, in centipawns, while pawns and squares matter.
const structureMost = 200

// evenMoment: neither side is so far ahead, nor has a passed pawn come so far, that small things do
// not matter.
func evenMoment(sc *scene, _ *Remark) bool {
	for i := range sc.facts {
		f := &sc.facts[i]
		if f.Kind == facts.Material && f.Amount >= structureMost || f.Kind == facts.Passed && f.Amount <= farLeft {
			return false
		}
	}
	return true
}

// seventhMoment: nobody is in check, the rook finds a pawn on the rank, and no enemy rook stands so.
func seventhMoment(sc *scene, r *Remark) bool {
	enemy := r.Side.Other()
	pawns := sc.p.Pieces(enemy, bitboard.Pawn) & bitboard.RankSet(r.subject().Rank())
	return !sc.inCheck && pawns != 0 && sc.rooks(enemy)&bitboard.RankSet(7-r.subject().Rank()) == 0
}

// heavyMoment: as balanceMoment, and the enemy has pieces, or everybody sees it.
func heavyMoment(sc *scene, r *Remark) bool {
	return balanceMoment(sc, r) && sc.pieces[r.Side.Other()] > 0
}

// freed reports that a pin does not last: the pinning man is attacked, or the king castles out of it.
func (sc *scene) freed(r *Remark) bool {
	on := r.Squares()
	if sc.p.Attackers(on[1])&sc.p.Side(r.Side) != 0 {
		return true
	}
	return r.Man(2).Type() == bitboard.King && sc.has(facts.CastlingAvailable, r.Side)
}

// pinMoment is when a pin that has lasted is worth a word. To the queen it binds the man only if
// as many attack it as guard it.
func pinMoment(sc *scene, r *Remark) bool {
	on := r.subject()
	if sc.number() < lastingFrom || sc.freed(r) {
		return false
	}
	around := sc.p.Attackers(on)
	attackers, guards := around&sc.p.Side(r.Side.Other()), around&sc.p.Side(r.Side)
	return r.Man(2).Type() == bitboard.King || attackers.Count() >= guards.Count()
}
