package prompt

import "clocktell/relay/clock"

// Size says how much better a side stands, in steps that people tell apart.
type Size uint8

// The sizes, the smallest first.
const (
	Level Size = iota
	Slight
	Better
	Clear
	Winning
	Mating
)

// Outcome is how an engine judges a position, rounded so that it can be said.
type Outcome struct {
	Size   Size
	Side   clock.Side // that stands better; not where Size is Level
	Halves int        // half pawns that it is ahead; 0 with Level and Mating
	Mate   int        // full moves until mate, with Mating
	Bound  Bound
}

// Bound tells whether an Outcome is only a bound of what is so.
type Bound uint8

// The bounds, as Outcome.Side has it.
const (
	Exact   Bound = iota
	AtLeast       // it stands at least so well
	AtMost        // it stands at most so well
)

// manyHalves is as many half pawns as are counted: a queen, and it is no longer pawns
// that matter.
const manyHalves = 18

// outcomeWords are what a language has for an engine's verdict.
type outcomeWords interface {
	// Stands says how a position stands, as a head with figures behind it: "White is
	// better, by a pawn and a half".
	Stands(o Outcome) string
	// Prefers says the same in a sentence for viewers, and that an engine says so.
	Prefers(o Outcome) string
	// Leans says it in as few words as there are, beside a mark.
	Leans(o Outcome) string
}
