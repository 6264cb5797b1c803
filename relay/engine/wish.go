package engine

import (
	"time"

	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// Class says how urgent a position is; the lower the more.
type Class int

// The classes.
const (
	OnAir  Class = iota // the newest position of the board on the air
	AtDesk              // where a desk stands
	Hot                 // the newest position of a board that something happens on
	Newest              // that of any other board
	Past                // earlier ones
	Deep                // those of finished games, once more and deeper
)

// Wish is a position that an opinion is wanted of.
type Wish struct {
	Board, Game, Ply int // handed back with the answer
	Class            Class
	Key              uint64 // see KeyOf
	Limit            Limit
	Line             func() Line // asked when the search begins
}

// Limit is when a search ends; the zero Limit only when it is stopped.
type Limit struct {
	Time  time.Duration
	Depth int // plies
	Nodes uint64
}

// reaches reports whether a search under l does for a wish with the limit.
func (l Limit) reaches(wanted Limit) bool {
	if wanted.Time > 0 && wanted.Depth == 0 && wanted.Nodes == 0 {
		return l.Time >= wanted.Time && l.Depth == 0 && l.Nodes == 0
	}
	return l == wanted && l != Limit{}
}

// Line is how a position came about, as far as the rules need it: repetitions count
// from Start on.
type Line struct {
	Start bitboard.Position
	Moves []bitboard.Move
}

// End returns the position that is meant.
func (l Line) End() bitboard.Position {
	p := l.Start
	for _, m := range l.Moves {
		p.Make(m)
	}
	return p
}

// Answer is an opinion on a position wished for.
type Answer struct {
	Wish    Wish
	Place   uint64 // hash of the position
	Opinion opinion.Opinion
}

// Since returns after how many plies of a game the last capture or pawn move before ply
// n was made: the game counts from there on, since no earlier position can come again.
// place returns the position after so many plies.
func Since(n int, place func(int) *bitboard.Position) int {
	return max(0, n-place(n).HalfmoveClock())
}

// KeyOf returns what opinions on the position after n plies are kept by. Equal keys mean
// the same position, the same count towards the fifty moves, and the same positions, in
// any order, that a repetition could still repeat: what an engine says may depend on
// all three.
func KeyOf(n int, place func(int) *bitboard.Position) uint64 {
	p := place(n)
	key := mixed(p.Hash() ^ mixed(uint64(p.HalfmoveClock())))
	for i := Since(n, place); i < n; i++ {
		key += mixed(place(i).Hash())
	}
	return key
}

// mixed is the finish of splitmix64 (Steele, Lea and Flood, OOPSLA 2014).
func mixed(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}
