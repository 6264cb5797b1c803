package remark

import "clocktell/relay/bitboard"

// What has not happened yet, and from which moves that is worth a word.
const (
	shutFrom    = 16
	oneOffFrom  = 18
	pawnsOnFrom = 12
	checkFrom   = 20
	rookFrom    = 20
	allPieces   = 7 // of a side
	allPawns    = 16
	rookPieces  = 3
)

func findEarlyCalm() {
	ownFinders = append(ownFinders, func(sc *scene, c Colour) {
		if c == bitboard.White {
			notYet(sc)
		}
	}, rookUnmoved)
	moments[NoOpenFile], moments[RookUnmoved], moments[OnePieceOff] = evenMoment, evenMoment, evenMoment
	moments[PawnsAllOn] = evenMoment
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
