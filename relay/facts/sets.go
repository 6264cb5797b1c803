package facts

import "clocktell/relay/bitboard"

// Sets of squares as White sees them; for Black turn the board with flipped first.
const (
	fileA Set = 0x0101010101010101
	fileH     = fileA << 7
	rank1 Set = 0xff
	// centralFiles are c to f.
	centralFiles     = fileA<<2 | fileA<<3 | fileA<<4 | fileA<<5
	queenSide        = fileA | fileA<<1 | fileA<<2 | fileA<<3
	lightSquares Set = 0x55aa55aa55aa55aa
)

// up is one rank further on.
func up(s Set) Set { return s << 8 }

// onward is the set and all squares further on, on the same files.
func onward(s Set) Set {
	s |= s << 8
	s |= s << 16
	return s | s<<32
}

// backward is the set and all squares further back.
func backward(s Set) Set {
	s |= s >> 8
	s |= s >> 16
	return s | s>>32
}

// files is the set's files, whole.
func files(s Set) Set { return onward(s) | backward(s) }

// beside is the squares left and right of the set.
func beside(s Set) Set { return s&^fileA>>1 | s&^fileH<<1 }

// pawnAttacks is what White pawns attack.
func pawnAttacks(pawns Set) Set { return up(beside(pawns)) }

// bitOf is the set of one square.
func bitOf(s Square) Set { return 1 << (s & 63) }

// sameColour is all squares of a square's colour.
func sameColour(s Square) Set {
	if lightSquares&bitOf(s) != 0 {
		return lightSquares
	}
	return ^lightSquares
}

// alone reports whether there is exactly one square in the set.
func alone(s Set) bool { return s != 0 && s.Rest() == 0 }

// values as in package bitboard, and the king above all.
const kingValue = 10_000

// worth is the value of what stands on a square, kingValue for a king.
func (l *look) worth(s Square) int {
	t := l.p.Piece(s).Type()
	if t == bitboard.King {
		return kingValue
	}
	return bitboard.Value(t)
}
