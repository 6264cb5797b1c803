package facts

import "clocktell/relay/bitboard"

func (l *look) draws(earlier []uint64) {
	times := 1
	for _, h := range earlier {
		if h == l.p.Hash() {
			times++
		}
	}
	if times > 1 {
		l.add(Repetition, bitboard.White).Amount = times
	}
	canMove := l.count[l.turn] > 0
	mated := !canMove && l.checkers != 0
	if n := l.p.HalfmoveClock(); n >= fiftyFrom && !mated {
		l.add(FiftyMoves, bitboard.White).Amount = n
	}
	if !canMove && !mated {
		l.add(Stalemated, l.turn)
		l.point(l.king[l.turn])
	}
	if l.isDead() {
		l.add(DeadPosition, bitboard.White)
		return
	}
	for c := range both {
		if alone(l.side[c]) {
			l.add(CannotWin, c)
			l.point(l.king[c])
		}
	}
}

func (l *look) isDead() bool {
	pawns := l.pawns[0] | l.pawns[1]
	pieces := l.pieceSet[0] | l.pieceSet[1]
	if pawns == 0 {
		bishops := l.p.Types(bitboard.Bishop)
		single := pieces.Rest() == 0 && pieces&^bishops&^l.p.Types(bitboard.Knight) == 0
		return single || pieces == bishops && !isPair(bishops)
	}
	return pieces == 0 && l.checkers == 0 && l.isWall()
}

// isWall reports whether no pawn can ever move or be taken.
func (l *look) isWall() bool {
	white, black := l.pawns[bitboard.White], l.pawns[bitboard.Black]
	if up(white) != black {
		return false
	}
	for c := range both {
		control := l.pawnControl(c)
		if control&l.pawns[c.Other()] != 0 {
			return false
		}
		// Where the other king can ever come, as if its rival were not there.
		reach := bitOf(l.king[c.Other()])
		open := ^(white | black | control)
		for grown := grow(reach) & open; grown&^reach != 0; grown = grow(reach) & open {
			reach |= grown
		}
		if grow(reach)&l.pawns[c]&^control != 0 {
			return false
		}
	}
	return true
}

// grow adds the squares next to the set.
func grow(s Set) Set {
	s |= beside(s)
	return s | s<<8 | s>>8
}
