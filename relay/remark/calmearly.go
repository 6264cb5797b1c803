package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// What has not happened yet, and from which moves that is worth a word.
const (
	shutFrom    = 16
	oneOffFrom  = 18
	pawnsOnFrom = 12
	checkFrom   = 20
	rookFrom    = 20
	castledFrom = 9
	broadFrom   = 6
	passerFrom  = 25
	passerPawns = 3 // of each side
	allPieces   = 7 // of a side
	allPawns    = 16
	rookPieces  = 3
)

func findEarlyCalm() {
	ownFinders = append(ownFinders, func(sc *scene, c Colour) {
		if c == bitboard.White {
			notYet(sc)
		}
	}, rookUnmoved, oneCastled, broadCentre)
	moments[NoOpenFile], moments[RookUnmoved], moments[OnePieceOff] = evenMoment, evenMoment, evenMoment
	moments[PawnsAllOn], moments[OneCastled], moments[BroadCentre] = evenMoment, evenMoment, evenMoment
}

// notYet finds what neither side has done.
func notYet(sc *scene) {
	pawns, number := sc.p.Types(bitboard.Pawn), sc.number()
	white, black := sc.pieces[bitboard.White], sc.pieces[bitboard.Black]
	if sc.middlegame() && number >= shutFrom && sc.rooks(0).Count() == 2 && sc.rooks(1).Count() == 2 && sc.openFiles() == 0 {
		sc.add(NoOpenFile, bitboard.White)
	}
	if white == allPieces-1 && black == allPieces-1 && number >= oneOffFrom {
		sc.add(OnePieceOff, bitboard.White)
	}
	if pawns.Count() == allPawns && max(white, black) < allPieces && number >= pawnsOnFrom {
		sc.add(PawnsAllOn, bitboard.White)
	}
	least := min(sc.p.Pieces(0, bitboard.Pawn).Count(), sc.p.Pieces(1, bitboard.Pawn).Count())
	if sc.fewPieces() && number >= passerFrom && least >= passerPawns && !sc.has(facts.Passed, 0) && !sc.has(facts.Passed, 1) {
		sc.add(NoPasser, bitboard.White)
	}
	if sc.memory.usual && !sc.memory.check && number >= checkFrom {
		sc.add(NoCheckYet, bitboard.White)
	}
}

func rookUnmoved(sc *scene, c Colour) {
	corners := bitboard.SetOf(bitboard.A1, bitboard.H1, bitboard.A8, bitboard.H8)
	own, other := sc.stayed(sc.rooks(c)&corners), sc.stayed(sc.rooks(c.Other())&corners)
	few := min(sc.pieces[0], sc.pieces[1]) < rookPieces || sc.rooks(c.Other()) == 0
	if sc.memory.usual && !few && sc.number() >= rookFrom && own.Count() == 1 && other == 0 {
		sc.add(RookUnmoved, c, own.First())
	}
}

func oneCastled(sc *scene, c Colour) {
	castled := &sc.memory.castle
	if sc.middlegame() && sc.number() >= castledFrom && castled[c] && !castled[c.Other()] && sc.p.Castles(c.Other()) != 0 {
		sc.add(OneCastled, c, sc.p.KingSquare(c))
	}
}

func broadCentre(sc *scene, c Colour) {
	d, e := homeward(c, bitboard.D4), homeward(c, bitboard.E4)
	own := sc.p.Pieces(c, bitboard.Pawn)
	against := flipped(c.Other(), sc.p.Pieces(c.Other(), bitboard.Pawn)) & bitboard.RankSet(3)
	for _, file := range []int{0, 1, 6, 7} {
		against &^= bitboard.FileSet(file)
	}
	if sc.middlegame() && sc.number() >= broadFrom && own.Has(d) && own.Has(e) && against == 0 {
		sc.add(BroadCentre, c, d, e)
	}
}
