package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

func findKings() {
	finders[facts.CastlingPrevented] = castlingPrevented
	finders[facts.OpenLineToKing] = openLine
	finders[facts.PawnCover] = coverGone
	finders[facts.KingInCentre] = kingLate
	ownFinders = append(ownFinders, castlingGivenUp, oppositeWings, underFire, backRank, fianchettoGone)
	moments[CastlingPrevented] = func(sc *scene, r *Remark) bool { return namedAreSafe(sc, r) && kingMoment(sc, r) }
	moments[BackRank] = func(sc *scene, r *Remark) bool { return sc.matesOnBackRank(r.Side) }
	moments[FileToKing] = fileToKingMoment
	moments[KingLate] = kingMoment
	moments[CastlingGivenUp] = givenUpMoment
	moments[CentreOpen] = func(sc *scene, r *Remark) bool {
		return sc.number() >= centreFrom && !sc.has(facts.KingInCentre, r.Side.Other()) && kingMoment(sc, r) && !sc.has(facts.CastlingAvailable, r.Side) && fileToKingMoment(sc, r)
	}
	moments[KnightOutpost] = outpostMoment
}

func castlingPrevented(sc *scene, f *facts.Fact) {
	named := len(f.Squares()) - 2
	short := sc.p.Castles(f.Side)&^bitboard.FileSet(0) != 0
	if named > 2 || sc.queens[0] == 0 || sc.queens[1] == 0 || f.Wing == facts.QueenSide && short {
		return
	}
	if !sc.freeWithout(f) {
		return
	}
	r := sc.add(CastlingPrevented, f.Side, f.Squares()...)
	r.Wing, r.Amount = f.Wing, int16(f.Amount)
}

// freeWithout reports whether nothing else would prevent castling if the men named were gone: none
// stands behind them on their lines.
func (sc *scene) freeWithout(f *facts.Fact) bool {
	king := f.Subject()
	gone := bitboard.SetOf(f.Squares()[2:]...)
	step := 1
	if f.Wing == facts.QueenSide {
		step = -1
	}
	left := sc.p.Occupied() &^ gone
	for n := range 3 {
		on := Square(int(king) + n*step)
		if sc.p.AttackersThrough(on, left)&left&sc.p.Side(f.Side.Other()) != 0 {
			return false
		}
	}
	return true
}

// namedAreSafe reports that none of the men that prevent castling hangs.
func namedAreSafe(sc *scene, r *Remark) bool {
	for _, on := range r.Squares()[2:] {
		if sc.hangs(r.Side.Other(), on) {
			return false
		}
	}
	return true
}

func castlingGivenUp(sc *scene, c Colour) {
	king := sc.p.KingSquare(c)
	home := homeward(c, king)
	if sc.p.Castles(c) != 0 || home.Rank() > 1 || home.File() < 3 || home.File() > 5 {
		return
	}
	if sc.queens[0] == 0 || sc.queens[1] == 0 || sc.pieces[c.Other()] < 3 {
		return
	}
	sc.add(CastlingGivenUp, c, king)
	gaveUp := sc.mover == c && sc.before.Castles(c) != 0 && !sc.before.InCheck()
	if !gaveUp && !sc.stood() {
		sc.drop()
	}
}

// openLine sorts open files by where the king stands.
func openLine(sc *scene, f *facts.Fact) {
	on := f.Squares()
	if t := f.Pieces()[1].Type(); t != bitboard.Rook && t != bitboard.Queen || f.Pieces()[1].Colour() == f.Side {
		return // nobody looks down the file, its end is named
	}
	king, file := homeward(f.Side, on[0]), on[1].File()
	central := king.File() == 3 || king.File() == 4
	enemy := f.Side.Other()
	switch {
	case central && (file == 3 || file == 4) && sc.has(facts.KingInCentre, f.Side):
		sc.add(CentreOpen, f.Side, on...)
	case !central && king.Rank() < 2 && sc.queens[enemy] != 0 && sc.pieces[enemy] > 1 && looksDown(sc, f):
		sc.add(FileToKing, f.Side, on...)
	}
}

// looksDown reports whether nothing stands between the enemy's man on an open file and the end of
// the file on the king's side.
func looksDown(sc *scene, f *facts.Fact) bool {
	step := Square(-8 + 16*int(f.Side)) // wraps below the first rank, out of the board
	for s := f.Squares()[1] + step; s < 64; s += step {
		if sc.p.Piece(s) != bitboard.NoPiece {
			return false
		}
	}
	return true
}

// cover is on how many of the files of the king and beside it a pawn of its own stands on its second
// or third rank, be it beside the king.
func (sc *scene) cover(c Colour) int {
	pawns := flipped(c, sc.p.Pieces(c, bitboard.Pawn)) & (bitboard.RankSet(1) | bitboard.RankSet(2))
	king, n := sc.p.KingSquare(c).File(), 0
	for file := max(king-1, 0); file <= min(king+1, 7); file++ {
		if pawns&bitboard.FileSet(file) != 0 {
			n++
		}
	}
	return n
}

func coverGone(sc *scene, f *facts.Fact) {
	enemy := f.Side.Other()
	if f.Amount > 1 || sc.queens[enemy] == 0 || sc.pieces[enemy] < 3 || sc.cover(f.Side) > 1 {
		return
	}
	r := sc.add(CoverGone, f.Side, f.Squares()...)
	r.Wing, r.Amount = f.Wing, int16(f.Amount)
	kingMoved := sc.move == bitboard.NoMove || sc.move.To() == f.Subject()
	if kingMoved && !sc.stood() {
		sc.drop()
	}
}

// From which moves a king in the centre is worth a word: on an open file, and at all.
const (
	centreFrom   = 10
	lateToCastle = 15
)

func kingLate(sc *scene, f *facts.Fact) {
	enemy := f.Side.Other()
	if sc.number() < lateToCastle || sc.pieces[enemy] < 4 || sc.has(facts.KingInCentre, enemy) {
		return
	}
	if file := sc.p.KingSquare(enemy).File(); file > 2 && file < 5 {
		return
	}
	if sc.has(facts.CastlingAvailable, f.Side) || sc.memory.left.Has(f.Subject()) {
		return // it may castle next; or it has gone somewhere
	}
	sc.add(KingLate, f.Side, f.Subject())
	if sc.number() > lateToCastle && !sc.stood() {
		sc.drop()
	}
}

func oppositeWings(sc *scene, c Colour) {
	if c == bitboard.Black || sc.queens[0] == 0 || sc.queens[1] == 0 {
		return
	}
	white, black := sc.p.KingSquare(c), homeward(c.Other(), sc.p.KingSquare(c.Other()))
	if white.Rank() > 1 || black.Rank() > 1 || min(white.File(), black.File()) > 2 || max(white.File(), black.File()) < 6 {
		return
	}
	sc.add(OppositeWings, c)
	from, to := sc.move.From(), sc.move.To()
	castled := sc.p.Piece(to).Type() == bitboard.King && (to == from+2 || to+2 == from)
	if !castled && !sc.stood() {
		sc.drop()
	}
}
