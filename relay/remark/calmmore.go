package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// How many there must be.
const (
	contestedLeast = 2 // men of each side
	leftMost       = 8 // pawns on the board
	opposedFrom    = 30
	pawnsTold      = 30 // plies since the pawns were counted
)

func findMoreCalm() {
	ownFinders = append(ownFinders, contested, thorn, cutOff, forcedMate)
	moments[ManContested], moments[FileHeld], moments[PawnThorn] = contestedMoment, evenMoment, evenMoment
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

// contested finds the man of a side about which there are most.
func contested(sc *scene, c Colour) {
	if !sc.middlegame() {
		return
	}
	best, most, twice := bitboard.NoSquare, 0, false
	for s := sc.p.Side(c) &^ sc.p.Types(bitboard.King); s != 0; s = s.Rest() {
		around := sc.p.Attackers(s.First())
		attackers, guards := (around & sc.p.Side(c.Other())).Count(), (around & sc.p.Side(c)).Count()
		switch {
		case attackers < contestedLeast || guards != attackers || attackers < most:
		case attackers == most:
			twice = true
		default:
			best, most, twice = s.First(), attackers, false
		}
	}
	if most > 0 && !twice {
		sc.add(ManContested, c, best).Amount = int16(most)
	}
}

// contestedMoment: nothing hangs, so that the count tells, and no side is far ahead.
func contestedMoment(sc *scene, r *Remark) bool {
	return sc.hanging[0]|sc.hanging[1] == 0 && evenMoment(sc, r)
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

// cutOff finds a rook between the enemy king and a passed pawn.
func cutOff(sc *scene, c Colour) {
	if !sc.fewPieces() {
		return
	}
	king := sc.p.KingSquare(c.Other())
	for i := range sc.facts {
		f := &sc.facts[i]
		if f.Kind != facts.Passed || f.Side != c {
			continue
		}
		for s := flipped(c, sc.rooks(c)&^sc.hanging[c]); s != 0; s = s.Rest() {
			rook := homeward(c, s.First())
			beside, beyond := rook.File()-king.File(), f.Subject().File()-rook.File()
			if absolute(beside) == 1 && beyond*beside > 0 {
				sc.add(KingCutOff, c, rook, king, f.Subject())
				return
			}
		}
	}
}

// mateNodes is how many positions the search for a mate by checks looks at, mateMoves how far.
const (
	mateNodes = 4000
	mateMoves = 3
)

func forcedMate(sc *scene, c Colour) {
	if c != sc.turn || sc.has(facts.MateOffer, c) {
		return
	}
	nodes := 0
	for n := 2; n <= mateMoves; n++ {
		if m := matesBy(sc.p, n, &nodes); m != bitboard.NoMove && nodes < mateNodes {
			r := sc.add(MateForced, c, m.From(), m.To(), sc.p.KingSquare(c.Other()))
			r.Move, r.Amount = m, int16(n)
			return
		}
	}
}

// matesBy returns a check by which the side to move mates in n moves at most, checks all of them, whatever is
// replied; NoMove: none was found. Of several it is the one that takes most, then that of the lower squares.
func matesBy(p *Position, n int, nodes *int) Move {
	var room, replies [bitboard.MaxMoves]Move
	var keys [bitboard.MaxMoves]int
	for _, m := range bestFirst(p, p.Moves(room[:0]), keys[:0], false) {
		next := *p
		next.Make(m)
		if !next.InCheck() {
			continue
		}
		if *nodes++; *nodes >= mateNodes {
			return bitboard.NoMove
		}
		answers := next.Moves(replies[:0])
		if len(answers) > 0 && n == 1 {
			continue
		}
		if allMated(&next, answers, n-1, nodes) {
			return m
		}
	}
	return bitboard.NoMove
}

// allMated reports whether every answer is mated in n moves; none left is mate at once.
func allMated(p *Position, answers []Move, n int, nodes *int) bool {
	for _, answer := range answers {
		next := *p
		next.Make(answer)
		if matesBy(&next, n, nodes) == bitboard.NoMove {
			return false
		}
	}
	return true
}
