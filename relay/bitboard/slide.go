package bitboard

import "math/bits"

// lines are the squares of the file and of both diagonals through a square, without
// the square itself.
type lines struct{ file, rising, falling Set }

var (
	through [64]lines
	// alongRank has what a slider attacks on its rank, by its file and by which of
	// the six inner squares are occupied. The outer two never matter: a slider
	// that comes so far stops there anyway.
	alongRank [8][64]uint8
)

// alongLine returns what a slider attacks on a line that has at most one square of
// each rank.
func alongLine(square Square, line, occupied Set) Set {
	blockers := occupied & line
	up := blockers - 2<<(square&63)
	down := bits.ReverseBytes64(bits.ReverseBytes64(uint64(blockers)) - 2<<(square&63^56))
	return (up ^ Set(down)) & line
}

func bishopAttacks(square Square, occupied Set) Set {
	l := &through[square&63]
	return alongLine(square, l.rising, occupied) | alongLine(square, l.falling, occupied)
}

func rookAttacks(square Square, occupied Set) Set {
	shift := square & 56
	rank := Set(alongRank[square&7][occupied>>shift>>1&63]) << shift
	return alongLine(square, through[square&63].file, occupied) | rank
}

// between returns the squares strictly between two squares of one line, none if they
// share no line.
func between(a, b Square) Set {
	switch {
	case cross[a&63].Has(b):
		return rookAttacks(a, b.bit()) & rookAttacks(b, a.bit()) & cross[a&63]
	case saltire[a&63].Has(b):
		return bishopAttacks(a, b.bit()) & bishopAttacks(b, a.bit()) & saltire[a&63]
	}
	return 0
}

// lineThrough returns the whole line of two squares, both included; none if they share
// no line.
func lineThrough(a, b Square) Set {
	switch {
	case cross[a&63].Has(b):
		return cross[a&63]&cross[b&63] | a.bit() | b.bit()
	case saltire[a&63].Has(b):
		return saltire[a&63]&saltire[b&63] | a.bit() | b.bit()
	}
	return 0
}
