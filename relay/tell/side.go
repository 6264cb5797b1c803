package tell

import (
	"time"

	"clocktell/relay/clock"
)

// outcome is what became of the last own move's time.
type outcome uint8

const (
	nothing  outcome = iota // no own move yet
	counted                 // moved the probability
	missing                 // no usable time
	onlyMove                // the only legal move: timed, but says nothing
	frozen                  // in time trouble: timed, but says nothing
)

// step is the last own move as the filter took it, kept for words.
type step struct {
	move     Move
	outcome  outcome
	before   float64       // probability of thinking before the move
	evidence float64       // log odds of its time, capped
	usual    time.Duration // running median before it, 0 if none
	long     bool          // it was a long think
	longest  bool          // no own move so far took longer
}

// side is all the filter keeps of one side.
type side struct {
	who      clock.Side
	thinking float64 // probability
	gathered float64 // log odds for thinking of the moves alone, since they last came to nothing
	ply      int     // of the last own move, 0 before any
	last     step

	timed   int // own moves with a usable time
	blind   int // own moves without one, since the last that had one
	outside int // own moves outside the reference, since the last inside
	quick   int // moves in a row whose time spoke for preparation
	quickIn time.Duration

	spent, cost, gained, longest time.Duration // cost: what of spent the clock fell by
	left                         time.Duration // on the clock after the last own move, 0 unknown
	added, rose                  time.Duration // to the clock in the course of the game, beyond its increments; of it, with the last own move
	paces                        paces
	tempo                        tempo
	drift                        drift

	verdict Verdict // Early until something is announced
	before  Verdict // the announced one before it, Early if none
	since   int     // ply with which verdict came
	held    bool    // verdict has stood for an own move since
	turned  step    // with which verdict came

	firstLong      int // ply of the first long think, 0 before any
	firstLongSpent time.Duration
}

// drift sums what moves cost, for the forecast of the clock.
type drift struct {
	moves       int
	sum, square float64 // seconds, seconds squared
}

// weight is how many independent moves' worth of knowledge its mean rests on.
func (d *drift) weight() float64 { return (forecastShrink + float64(d.moves)) / together }

func (d *drift) add(cost time.Duration) {
	s := cost.Seconds()
	d.moves++
	d.sum += s
	d.square += s * s
}

// note adds a usable time, and what it cost, to what is counted of the side.
func (s *side) note(m Move, inc, cost time.Duration, thinking bool) {
	s.timed++
	s.blind = 0
	s.spent += m.Spent
	s.cost += cost
	s.gained += inc - cost
	s.longest = max(s.longest, m.Spent)
	s.paces.add(m.Spent, thinking)
	s.drift.add(cost)
}

// noteQuick keeps the run of moves that spoke for preparation.
func (s *side) noteQuick(spent time.Duration, evidence float64) {
	if evidence >= 0 {
		s.quick, s.quickIn = 0, 0
		return
	}
	s.quick++
	s.quickIn += spent
}

// noteKnown counts own moves outside the reference.
func (s *side) noteKnown(k Knowledge) {
	if k == FirstOutside || k == Outside {
		s.outside++
		return
	}
	s.outside = 0
}

// clockBefore returns the clock with which a move began, 0 if unknown.
func (s *side) clockBefore(m Move, c clock.Control) time.Duration {
	if s.left > 0 {
		return s.left
	}
	if m.Left <= 0 || m.Quality == clock.QualityNone {
		return 0
	}
	return m.Left + costs(c, m.Spent) - c.Increment(own(m.Ply)) - c.Bonus(own(m.Ply))
}
