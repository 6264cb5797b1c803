package tell

import (
	"time"

	"clocktell/relay/clock"
)

// LongThinkAfter returns the time on one move above which it is a long think for
// that side: the most of four times its own running median, two and a half times
// the median of its moves thought out, 2 % of the base time, and a floor of a
// twentieth of the base time that stays within 5 s and 2 min. Before three timed
// own moves the median is taken to be .4 of the pace.
//
// The first and the third are the rule of relay/tell's data; the others were set
// by reading what was said over whole games: a median that still holds the moves
// from preparation calls every later move long.
func (f Filter) LongThinkAfter(who clock.Side) time.Duration {
	s := &f.sides[who&1]
	base := f.p.base(f.of(s))
	usual := s.paces.median(kept, false)
	if s.timed < longFromTimed {
		usual = inSeconds(f.p.lagPace * f.p.pace(f.of(s), own(s.ply)+1))
	}
	floor := min(max(part(base, longFloorShare), longFloorLeast), longFloorMost)
	thought := part(s.paces.median(usualMoves, true), longThought)
	return max(part(usual, longMedians), thought, part(base, longShare), floor)
}

// part returns a share of d.
func part(d time.Duration, share float64) time.Duration {
	return time.Duration(float64(d) * share)
}

// inSeconds returns s seconds.
func inSeconds(s float64) time.Duration { return part(time.Second, s) }
