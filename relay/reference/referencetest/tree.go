// Package referencetest makes up collections of games for tests and benchmarks:
// a tree in which few moves are popular and nearly all games end alone. The
// positions are numbers; nothing in it is chess.
package referencetest

import (
	"fmt"
	"slices"

	"clocktell/relay/clock"
	"clocktell/relay/reference"
)

// Root is the position in which all games begin.
const Root uint64 = 0x9e3779b97f4a7c15

// moves of a position: how many there are, and how much the first is preferred.
// With these a game among 500,000 has about 15 plies in company.
const (
	moves      = 12
	preference = 8
)

// Collection is a number of games that are followed for a number of plies.
// The same numbers give the same games.
type Collection struct{ Games, Plies int }

// Game makes up what is kept of a game.
func (c Collection) Game(id int) reference.Game {
	r := source(mix(uint64(id) ^ 0xabcdef))
	rating := func() int { return 1200 + r.below(800) + r.below(800) }
	return reference.Game{
		White: fmt.Sprintf("Player %d", r.below(1+c.Games/20)), Black: fmt.Sprintf("Player %d", r.below(1+c.Games/20)),
		Event: fmt.Sprintf("Open %d", r.below(1+c.Games/200)), WhiteRating: rating(), BlackRating: rating(),
		Year: 2025 - min(r.below(40), r.below(40)), Result: reference.Result(1 + r.below(3)),
		Class: clock.Class(r.below(4)), Venue: reference.Venue(r.below(3)),
	}
}

// Follow calls visit for each position of a game with the move that follows, in
// the order of the game.
func (c Collection) Follow(id int, visit func(reference.Occurrence)) {
	r := source(mix(uint64(id)))
	position := Root
	for ply := range c.Plies {
		u := r.unit()
		for range log2(preference) {
			u *= u
		}
		child := uint64(u * moves)
		move := uint16(1 + mix(position+child)%0x7ffe)
		if ply%2 == 1 {
			move |= reference.BlackMoves
		}
		visit(reference.Occurrence{Position: position, Move: move, Game: reference.GameID(id)})
		position = mix(position ^ (child+1)<<7)
	}
	end := uint16(0)
	if c.Plies%2 == 1 {
		end = reference.BlackMoves
	}
	visit(reference.Occurrence{Position: position, Move: end, Game: reference.GameID(id)})
}

// Occurrences returns all occurrences in the order that an index is written in.
func (c Collection) Occurrences() []reference.Occurrence {
	out := make([]reference.Occurrence, 0, c.Games*(c.Plies+1))
	for id := range c.Games {
		c.Follow(id, func(o reference.Occurrence) { out = append(out, o) })
	}
	slices.SortFunc(out, reference.Occurrence.Compare)
	return out
}

func log2(n int) int {
	k := 0
	for ; n > 1; n >>= 1 {
		k++
	}
	return k
}

// source is a row of random numbers, cheap to begin.
type source uint64

func (s *source) next() uint64 {
	*s += 0x9e3779b97f4a7c15
	return mix(uint64(*s))
}

func (s *source) unit() float64   { return float64(s.next()>>11) / (1 << 53) }
func (s *source) below(n int) int { return int(s.next() % uint64(n)) }

// mix is the finisher of SplitMix64 (Steele, Lea, Flood 2014; constants from memory).
func mix(x uint64) uint64 {
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}
