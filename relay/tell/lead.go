package tell

import (
	"time"

	"clocktell/relay/clock"
)

// Lead is a clock lead worth a word.
type Lead struct {
	Side     clock.Side // who is ahead
	By       time.Duration
	Moves    int              // how many moves of its own budget that is
	Budgets  [2]time.Duration // for each own move still expected, by side
	Reason   string
	Evidence string
}

// Lead returns the side that is well ahead on the clock, if one is. Two things are
// asked, both judgement: the lead is at least a minute and a fifth of the base
// time, and its budget for a move at least one and a half times the other's. A
// lead that stood before stands until it falls a quarter below either: it shrinks
// while the leader thinks, and must not come and go with every move.
// Without a known control there is no measure, and no lead. Of unequal starts the
// larger is the base time; what a side had more from the start, or was added to its
// clock, is no lead.
func (f Filter) Lead(left [2]time.Duration, stood bool) (Lead, bool) {
	ahead := clock.White
	if left[clock.Black] > left[clock.White] {
		ahead = clock.Black
	}
	l := Lead{Side: ahead, By: left[ahead] - left[ahead.Other()]}
	for i := range l.Budgets {
		l.Budgets[i] = f.budget(&f.sides[i], max(0, left[i]))
	}
	slack := 1.0
	if stood {
		slack = leadStands
	}
	if budget := l.Budgets[ahead]; budget > 0 {
		l.Moves = int(l.By / budget)
	}
	far := min(l.By, l.By-f.given(ahead)) >= part(f.leadWorth(), slack)
	richer := l.Budgets[ahead] >= part(l.Budgets[ahead.Other()], 1+(leadBudget-1)*slack)
	if !f.controls[ahead].Known() || !far || !richer {
		return Lead{}, false
	}
	l.Reason, l.Evidence = l.words()
	return l, true
}

// given returns by how much more time a side was given than the other, at the start and
// since, increments and controls aside; negative if less.
func (f *Filter) given(who clock.Side) time.Duration {
	other := who.Other()
	start := f.controls[who].Start() - f.controls[other].Start()
	return start + f.sides[who].added - f.sides[other].added
}

// noteAdded keeps what was added to a clock, by how much it rose beyond its increment
// with a move. What the next move takes back was a wrong reading.
func (f *Filter) noteAdded(s *side, rise time.Duration) {
	if s.left == 0 || !f.of(s).Known() {
		return
	}
	if s.rose > 0 && -rise >= s.rose {
		s.added -= s.rose
	}
	jumped := rise >= addedLeast
	if jumped || s.rose > 0 {
		f.gap = gap{} // what was given is no lead, and nothing to catch up with
	}
	s.rose = 0
	if jumped {
		s.rose = rise
		s.added += rise
	}
}

// leadWorth returns the least lead worth a word.
func (f *Filter) leadWorth() time.Duration {
	start := max(f.controls[clock.White].Start(), f.controls[clock.Black].Start())
	return max(leadLeast, part(start, leadShare))
}
