package tell

import (
	"slices"

	"clocktell/relay/clock"
)

// Filter is what is known of both sides after the moves so far. It is a value:
// Next returns a new one and leaves the old as it was. The zero Filter is of no
// use; New makes one.
type Filter struct {
	controls [2]clock.Control // as each side has it; owned, never changed
	p        *params          // never changed
	sides    [2]side
	gap      gap // between the clocks
}

// New returns the Filter before the first move. Without a known control it works
// as at 15 min + 10 s, but counts no increments. A delay counts like an increment of
// that length, but for what is not used of it; sides that start unequal are each
// measured by their own start.
func New(c clock.Control) Filter {
	c.Periods = slices.Clone(c.Periods)
	return newFilter(c, &standard)
}

func newFilter(c clock.Control, p *params) Filter {
	f := Filter{p: p}
	for i := range f.sides {
		f.controls[i] = c.For(clock.Side(i))
		f.sides[i] = side{who: clock.Side(i), thinking: 1 - p.startPrepared, left: f.controls[i].Start()}
	}
	return f
}

// Next returns the Filter after one more move. Moves come in order of play; own
// moves left out count as moves without a time.
func (f Filter) Next(m Move) Filter {
	m = m.sane(f.p)
	s := &f.sides[m.Side]
	s.noteKnown(m.Known)
	e := f.emission(m) // from the own move before, so ahead of s.last
	s.last = step{
		move: m, outcome: f.judge(s, m), before: s.thinking,
		usual: s.paces.median(kept, false),
		long:  m.Quality != clock.QualityNone && m.Spent > f.LongThinkAfter(m.Side),
	}
	s.last.longest = s.timed > 0 && m.Spent >= s.longest
	if s.last.outcome != frozen {
		f.predict(s, m)
	}
	if s.last.outcome == counted {
		f.update(s, m, e)
	}
	f.count(s, m)
	s.ply, s.left = m.Ply, m.Left
	s.announce(f.p, f.p.base(f.of(s)))
	s.noteTurn()
	f.noteGap()
	return f
}

// of returns the control as a side has it.
func (f *Filter) of(s *side) clock.Control { return f.controls[s.who] }

// judge decides what the time of a move is good for. More time than was left, which
// shows as less than the increment on the clock after, is no time at all.
func (f *Filter) judge(s *side, m Move) outcome {
	c := f.of(s)
	grants := c.Increment(own(m.Ply)) + c.Bonus(own(m.Ply))
	before := s.clockBefore(m, c)
	switch {
	case m.Quality == clock.QualityNone || (m.Left > 0 && m.Left+f.p.resolution < grants):
		return missing
	case before > 0 && before < troubleAt(c, 2):
		return frozen
	case m.Legal == 1:
		return onlyMove
	}
	return counted
}

// predict carries the probability over the own moves up to m. The first timed own
// move is where the model starts, so a first or second one has nothing before it.
func (f *Filter) predict(s *side, m Move) {
	const gap = 200 // plies; after so long a gap nothing is left of preparation
	from := s.ply + 2
	if s.ply == 0 {
		from = 2 - m.Ply%2
	}
	if from > m.Ply {
		from = m.Ply
	}
	for ply := max(from, m.Ply-gap); ply <= m.Ply; ply += 2 {
		if s.timed == 0 && own(ply) <= 2 {
			continue
		}
		shift := 0.0
		if ply == m.Ply {
			shift = f.p.reference(m.Known, s.outside)
		}
		s.thinking = f.p.predict(s.thinking, ply, shift)
	}
}

// update lets the time of m speak.
func (f *Filter) update(s *side, m Move, e emission) {
	s.last.evidence = clamp(e.evidence(m.Spent, m.Resolution), f.p.evidenceMost)
	s.thinking = f.p.update(s.thinking, s.last.evidence)
	s.gathered = max(0, s.gathered+s.last.evidence)
	s.noteQuick(m.Spent, s.last.evidence)
	s.tempo.note(f.p, s.thinking, logSeconds(m.Spent), e)
}

// count adds m to what is counted of its side. A clock that rose, or a new period,
// starts the forecast anew.
func (f *Filter) count(s *side, m Move) {
	c := f.of(s)
	inc, bonus := c.Increment(own(m.Ply)), c.Bonus(own(m.Ply))
	if s.last.outcome == missing {
		s.blind++
	} else {
		s.note(m, inc, costs(c, m.Spent), s.thinking >= f.p.even)
	}
	f.noteAdded(s, m.Left-s.left-inc-bonus)
	if bonus > 0 || (s.left > 0 && c.Known() && m.Left > s.left+inc+f.p.resolution) {
		s.drift = drift{}
	}
}

// emission returns the distributions for the time of a sane move, with the pull of
// the moves before it where their times are known.
func (f *Filter) emission(m Move) emission {
	c := f.controls[m.Side]
	shift := f.p.shift(c, m)
	return f.p.emission(c, own(m.Ply), shift, f.lag(m), f.sides[m.Side].tempo.shift(f.p))
}

// lag returns the pull of the opponent's last move and of the own one on a move.
func (f *Filter) lag(m Move) float64 {
	s, other := &f.sides[m.Side], &f.sides[m.Side.Other()]
	pace, lag := f.p.pace(f.of(s), own(m.Ply)), 0.0
	if other.ply == m.Ply-1 && other.last.isTimed() {
		lag += f.p.pull(f.p.lagOther, other.last.move.Spent, pace)
	}
	if s.ply > 0 && s.ply == m.Ply-2 && s.last.isTimed() {
		lag += f.p.pull(f.p.lagOwn, s.last.move.Spent, pace)
	}
	return lag
}

// isTimed reports whether the move's time was usable.
func (s step) isTimed() bool { return s.outcome != nothing && s.outcome != missing }
