package tell

import "time"

// Verdict is what is said of a side.
//
// It moves by these rules, with P the probability of thinking after an own move:
//
//	P at .90 or more, and the moves say so  Thinking, from two timed own moves
//	P above .20 and Thinking was said       Thinking stays
//	P below .50, clock hardly used          InPreparation, from three
//	P below .75, the moves do not say more, InPreparation stays
//	clock hardly used, and that was said
//	anything else                           Early
//
// The moves say so when the evidence of their times alone has gathered log odds of 1.5:
// added up move by move and never below nothing (Page 1954, as cited from memory in the
// project notes). P grows with the ply even where nothing happens, since fewer are
// prepared that deep; that alone is no reason to say a word, or at once to take one back.
//
// InPreparation gives way to Thinking at once. Else what was said holds for the next
// own move whatever comes, and may change with the one after. A side that has used a
// quarter of its base time is never said to be in preparation. With three own moves in
// a row without a time there is NoClock, over everything else.
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
		if !s.held && next != Thinking {
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
	case s.timed >= p.thinkingLeast && p.entered(s.thinking, s.gathered):
		return Thinking
	case s.verdict == Thinking && s.thinking > p.leave:
		return Thinking
	case s.timed >= p.timedLeast && s.thinking < p.evenFor(s) && s.hardlyUsed(p, base):
		return InPreparation
	}
	return Early
}

// evenFor returns the probability of thinking below which a side is in preparation:
// more for one of which that was said and whose moves have gathered nothing against it.
func (p *params) evenFor(s *side) float64 {
	if s.verdict == InPreparation && s.gathered < p.enterSum {
		return p.evenStays
	}
	return p.even
}

// entered reports whether a probability of thinking and the evidence gathered are
// enough to say so.
func (p *params) entered(thinking, gathered float64) bool {
	return thinking >= p.enter && gathered >= p.enterSum
}

// hardlyUsed reports whether little enough time is gone for preparation. Without a
// base time there is nothing to measure by.
func (s *side) hardlyUsed(p *params, base time.Duration) bool {
	return base == 0 || s.cost.Seconds() < p.preparationMost*base.Seconds()
}
