package opinion

import (
	"time"

	"clocktell/relay/bitboard"
)

// Opinion is what an engine thinks of one position.
type Opinion struct {
	Engine string        // by the name it gives itself
	Lines  []Line        // best first for the side on move; empty where it has no move
	Steps  []Step        // one for each depth that was searched to its end, shallowest first
	Depth  int           // plies, to which all Lines were searched
	Nodes  uint64        // positions visited
	Given  time.Duration // for the search; 0: its end was set in another way
	Took   time.Duration
	Final  bool // the search has come to its planned end; a deeper one may follow all the same
}

// Line is a way that the game may go on, with the score it leads to.
type Line struct {
	Score   Score
	Chances *Chances // nil: the engine gives none
	Depth   int      // plies
	Moves   []bitboard.Move
}

// Step is what was first at one depth.
type Step struct {
	Depth int // plies
	First bitboard.Move
	Score Score
}

// Score is a verdict on a position from White's view.
type Score struct {
	Centipawns int // hundredths of a pawn; 0 where Mate is not
	// Mate is in how many full moves mate comes: above 0 White mates, below 0 Black.
	// 0: no mate is in sight.
	Mate  int
	Bound Bound
}

// Bound tells whether a score is what it says.
type Bound uint8

// The bounds, from White's view. A score that is only a bound is never shown as exact.
const (
	Exact   Bound = iota
	AtLeast       // White stands at least so well
	AtMost        // White stands at most so well
)

// Chances are an engine's own guess at how the game ends, in thousandths, from White's
// view: UCI calls them wdl.
type Chances struct{ Win, Draw, Loss int }

// Supersedes reports whether an opinion takes the place of an older one, nil for none, on
// the same position: the deeper one does, and the outcome of a search does in place of one that
// was given less time, or was stopped before it had as much.
func (o *Opinion) Supersedes(old *Opinion) bool {
	switch {
	case old == nil || o.Depth > old.Depth:
		return true
	case o.Depth == old.Depth:
		return o.Final || !old.Final
	}
	return o.Final && (o.Given > old.Given || !old.Final && (o.Given == old.Given || o.Given > old.Took))
}

// Best returns the first line, and false where there is none.
func (o *Opinion) Best() (Line, bool) {
	if o == nil || len(o.Lines) == 0 || len(o.Lines[0].Moves) == 0 {
		return Line{}, false
	}
	return o.Lines[0], true
}

// First returns the move a line begins with, NoMove if it has none.
func (l Line) First() bitboard.Move {
	if len(l.Moves) == 0 {
		return bitboard.NoMove
	}
	return l.Moves[0]
}

// From returns the score from one side's view: positive is good for it.
func (s Score) From(white bool) Score {
	if white {
		return s
	}
	s.Centipawns, s.Mate = -s.Centipawns, -s.Mate
	switch s.Bound {
	case AtLeast:
		s.Bound = AtMost
	case AtMost:
		s.Bound = AtLeast
	}
	return s
}

// differBy is how far two scores are apart that are not of one mind, in hundredths of a
// pawn. Judgement.
const differBy = 60

// Differ reports whether two opinions on one position are not of one mind: they would
// play different moves, and their scores are far apart or one of them sees mate.
func Differ(a, b *Opinion) bool {
	first, ok := a.Best()
	second, also := b.Best()
	if !ok || !also || first.First() == second.First() || first.Score.Bound != Exact || second.Score.Bound != Exact {
		return false
	}
	if first.Score.Mate != 0 || second.Score.Mate != 0 {
		return (first.Score.Mate > 0) != (second.Score.Mate > 0) || (first.Score.Mate < 0) != (second.Score.Mate < 0)
	}
	apart := first.Score.Centipawns - second.Score.Centipawns
	return max(apart, -apart) > differBy
}
