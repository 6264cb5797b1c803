package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// How many there must be.
const (
	leftMost    = 8 // pawns on the board
	opposedFrom = 30
	pawnsTold   = 30 // plies since the pawns were counted
)

func findMoreCalm() {
	ownFinders = append(ownFinders, thorn, cutOff, forcedMate)
	moments[FileHeld], moments[PawnThorn] = evenMoment, evenMoment
	moments[PawnsLeft] = balanceMoment
	moments[NoPawnsLeft] = func(sc *scene, _ *Remark) bool { return !sc.heard(bitboard.White, pawnsTold, EndingBegun, PawnsLeft) }
}

// fewPieces reports an ending without queens.
func (sc *scene) fewPieces() bool {
	return sc.queens[0]|sc.queens[1] == 0 && max(sc.pieces[0], sc.pieces[1]) <= 2
}

// pawnsLeft counts them when one has been captured.
func pawnsLeft(sc *scene) {
	white, black := sc.p.Pieces(bitboard.White, bitboard.Pawn).Count(), sc.p.Pieces(bitboard.Black, bitboard.Pawn).Count()
	if !sc.fewPieces() || white+black > leftMost || white+black < 2 {
		return
	}
	sc.add(PawnsLeft, bitboard.White).Amount = int16(10*white + black)
	before := sc.before.Types(bitboard.Pawn).Count()
	if white+black == before && !sc.stood() {
		sc.drop()
	}
}

func opposition(sc *scene) {
	if sc.pieces[0]+sc.pieces[1] > 0 || sc.number() < opposedFrom {
		return
	}
	white, black := sc.p.KingSquare(bitboard.White), sc.p.KingSquare(bitboard.Black)
	files, ranks := absolute(white.File()-black.File()), absolute(white.Rank()-black.Rank())
	if files+ranks == 2 && files != ranks {
		sc.add(Opposition, bitboard.White, white, black).Amount = int16(sc.turn)
	}
}

func thorn(sc *scene, c Colour) {
	enemy := c.Other()
	king := homeward(c, sc.p.KingSquare(enemy))
	if !sc.middlegame() || king.Rank() < 6 || king.File() == 3 || king.File() == 4 {
		return
	}
	near := bitboard.FileSet(king.File())
	if king.File() > 0 {
		near |= bitboard.FileSet(king.File() - 1)
	}
	if king.File() < 7 {
		near |= bitboard.FileSet(king.File() + 1)
	}
	pawns := flipped(c, sc.p.Pieces(c, bitboard.Pawn)&^sc.hanging[c]) & bitboard.RankSet(5) & near
	if pawns.Count() == 1 {
		sc.add(PawnThorn, c, homeward(c, pawns.First()))
	}
}

// holdsLine reports that a rook looks at every square of its file that a king beside it could
// step onto: no man between, and the king cannot take it.
func (sc *scene) holdsLine(rook, king bitboard.Square) bool {
	seen := bitboard.Attacks(rook, bitboard.NewPiece(bitboard.White, bitboard.Rook), sc.p.Occupied())
	for rank := max(0, king.Rank()-1); rank <= min(7, king.Rank()+1); rank++ {
		if !seen.Has(bitboard.NewSquare(rook.File(), rank)) {
			return false
		}
	}
	return true
}

// cutOff finds a rook between the enemy king and a passed pawn.
func cutOff(sc *scene, c Colour) {
	if !sc.fewPieces() {
		return
	}
	king := sc.p.KingSquare(c.Other())
	for i := range sc.facts {
		f := &sc.facts[i]
		if f.Kind != facts.Passed || f.Side != c || homeward(c, f.Subject()).Rank() < 2 {
			continue
		}
		for s := flipped(c, sc.rooks(c)&^sc.hanging[c]); s != 0; s = s.Rest() {
			rook := homeward(c, s.First())
			beside, beyond := rook.File()-king.File(), f.Subject().File()-rook.File()
			if absolute(beside) == 1 && beyond*beside > 0 && sc.holdsLine(rook, king) {
				sc.add(KingCutOff, c, rook, king, f.Subject())
				return
			}
		}
	}
}
