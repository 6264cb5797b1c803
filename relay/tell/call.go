package tell

import (
	"time"

	"clocktell/relay/clock"
)

// Call is what can be said of a side. Times are of its timed own moves.
type Call struct {
	Verdict  Verdict
	Before   Verdict       // what was said before Verdict, Early if nothing
	Since    int           // ply with which Verdict came, 0 if it always stood
	Thinking float64       // probability, 0 to 1
	Timed    int           // own moves with a usable time
	Gained   time.Duration // increments less time spent: the clock against its start; may be negative
	Spent    time.Duration // sum of times spent

	Turn     string // how Verdict came: "left preparation on move 12 after 3:41"; "" if there is no more to say
	Returned bool   // in preparation again after thinking was said

	FirstLong      int           // own move number of its first long think, 0 before any
	FirstLongSpent time.Duration // on that

	Ply       int           // of the last own move, 0 before any
	LastSpent time.Duration // on it, 0 if unknown
	LastLong  bool          // it was a long think
	Longest   bool          // no own move before took longer; of the move under way, if Provisional
	Lately    time.Duration // mean of the last four

	Provisional bool          // the clock runs and the move is yet to come
	Elapsed     time.Duration // on the move under way, if Provisional
	ElapsedLong bool          // that is a long think already
	Frozen      bool          // the last move was played in time trouble and not counted

	// FastUnknown says that the last move was as quick as one from preparation, in or
	// into a position outside the reference games, and nothing on the board called for
	// haste: prepared beyond the games, or a bluff. The clock cannot tell which.
	FastUnknown bool

	Reasons []string // strongest first, each with its figures
	Changed string   // why the last own move moved the probability, "" if it hardly did
}

// lately is how many moves Call.Lately is the mean of.
const lately = 4

// Call returns what can be said of a side after the moves so far.
func (f Filter) Call(who clock.Side) Call {
	s := &f.sides[who&1]
	c := f.figures(s)
	c.Reasons = f.reasons(s)
	c.Changed = s.changed()
	c.Turn = s.turn()
	return c
}

// figures fills in all of a Call but its sentences.
func (f *Filter) figures(s *side) Call {
	c := Call{
		Verdict: s.verdict, Before: s.before, Since: s.since,
		Thinking: s.thinking, Timed: s.timed, Gained: s.gained, Spent: s.spent,
		Ply: s.ply, LastLong: s.last.long, Longest: s.last.longest,
		Lately: s.paces.mean(lately), Frozen: s.last.outcome == frozen,
		FirstLong: own(s.firstLong), FirstLongSpent: s.firstLongSpent,
		FastUnknown: s.last.fastUnknown(), Returned: s.returned(),
	}
	if s.last.isTimed() {
		c.LastSpent = s.last.move.Spent
	}
	if s.blind >= f.p.blindMoves {
		c.Verdict = NoClock
	}
	return c
}

// Standing returns the verdict on a side and the probability that it is thinking, with
// none of the words of a Call.
func (f *Filter) Standing(who clock.Side) (Verdict, float64) {
	s := &f.sides[who&1]
	if s.blind >= f.p.blindMoves {
		return NoClock, s.thinking
	}
	return s.verdict, s.thinking
}
