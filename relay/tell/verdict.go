package tell

import "time"

// Verdict is what is said of a side.
//
// It moves by these rules, with P the probability of thinking after an own move:
//
//	fewer than three timed own moves        Early
//	P at .90 or more                        Thinking
//	P above .20 and Thinking was said       Thinking stays
//	P below .50, clock hardly used          InPreparation
//	anything else                           Early
//
// What was said holds for the next own move whatever comes, and may change with the
// one after. A side that has used a quarter of its base time is never said to be in
// preparation. With three own moves in a row without a time there is NoClock, over
// everything else.
type Verdict uint8

// The verdicts. Early also stands for undecided; Call.Shade tells the two apart.
const (
	Early Verdict = iota
	NoClock
	InPreparation
	Thinking
)

// announce moves the verdict on after an own move.
func (s *side) announce(p *params, base time.Duration) {
	next := s.want(p, base)
	if next == s.verdict {
		s.held = true
		return
	}
	if s.verdict != Early {
		if !s.held {
			s.held = true
			return
		}
		s.before = s.verdict
	}
	s.verdict, s.since, s.held = next, s.ply, false
}

// want returns the verdict the numbers ask for.
func (s *side) want(p *params, base time.Duration) Verdict {
	switch {
	case s.timed < p.timedLeast:
		return Early
	case s.thinking >= p.enter, s.verdict == Thinking && s.thinking > p.leave:
		return Thinking
	case s.thinking < p.even && s.hardlyUsed(p, base):
		return InPreparation
	}
	return Early
}

// hardlyUsed reports whether little enough time is gone for preparation. Without a
// base time there is nothing to measure by.
func (s *side) hardlyUsed(p *params, base time.Duration) bool {
	return base == 0 || s.spent.Seconds() < p.preparationMost*base.Seconds()
}
