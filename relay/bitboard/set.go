package bitboard

import (
	"iter"
	"math/bits"
	"strings"
)

// Set is a set of squares, bit 0 for a1 to bit 63 for h8.
type Set uint64

const (
	fileA Set = 0x0101010101010101
	fileH     = fileA << 7
	rank1 Set = 0xff
	rank8     = rank1 << 56
)

// SetOf returns the set of these squares.
func SetOf(squares ...Square) Set {
	var s Set
	for _, square := range squares {
		s |= square.bit()
	}
	return s
}

// FileSet returns all squares of a file, from 0 to 7.
func FileSet(file int) Set { return fileA << (file & 7) }

// RankSet returns all squares of a rank, from 0 to 7.
func RankSet(rank int) Set { return rank1 << (rank & 7 * 8) }

// Has reports whether the square is in the set.
func (s Set) Has(square Square) bool { return s>>(square&63)&1 != 0 }

// Count returns the number of squares in the set.
func (s Set) Count() int { return bits.OnesCount64(uint64(s)) }

// First returns the lowest square of the set, NoSquare for an empty one.
func (s Set) First() Square { return Square(bits.TrailingZeros64(uint64(s))) }

// Rest returns the set without its lowest square.
func (s Set) Rest() Set { return s & (s - 1) }

// All gives the squares of the set, the lowest first.
func (s Set) All() iter.Seq[Square] {
	return func(yield func(Square) bool) {
		for rest := s; rest != 0; rest = rest.Rest() {
			if !yield(rest.First()) {
				return
			}
		}
	}
}

// String returns the names of the squares with spaces between them.
func (s Set) String() string {
	var names []string
	for square := range s.All() {
		names = append(names, square.String())
	}
	return strings.Join(names, " ")
}

// oneOrNone reports whether the set has no more than one square.
func (s Set) oneOrNone() bool { return s&(s-1) == 0 }
