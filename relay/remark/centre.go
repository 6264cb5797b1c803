package remark

import "clocktell/relay/bitboard"

// touched reports that a pawn can capture one of these white pawns or the black ones ahead of them.
func (sc *scene) touched(white Set) bool {
	for s := white; s != 0; s = s.Rest() {
		on := s.First()
		white, black := sc.p.Pieces(bitboard.White, bitboard.Pawn), sc.p.Pieces(bitboard.Black, bitboard.Pawn)
		if sc.p.Attackers(on)&black != 0 || sc.p.Attackers(on+8)&white != 0 {
			return true
		}
	}
	return false
}

// closedFrom is the move from which a closed centre is worth a word.
const closedFrom = 11

func centreClosed(sc *scene, c Colour) {
	if c == bitboard.Black || sc.number() < closedFrom {
		return
	}
	white, black := sc.p.Pieces(c, bitboard.Pawn), sc.p.Pieces(c.Other(), bitboard.Pawn)
	fixed := white & (black >> 8) & (bitboard.FileSet(3) | bitboard.FileSet(4))
	onD, onE := fixed&bitboard.FileSet(3), fixed&bitboard.FileSet(4)
	if onD.Count() == 1 && onE.Count() == 1 && !sc.touched(onD|onE) {
		sc.add(CentreClosed, c, onD.First(), onE.First(), onD.First()+8, onE.First()+8)
	}
}
