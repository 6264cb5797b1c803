package clock

import "time"

// Tolerances of Control.After.
const (
	rounding      = time.Second     // two clocks cut to whole seconds may differ by this
	contradiction = 2 * time.Second // beyond this, emt and clk do not mean the same move
)

// Timed is one side's clock after one of its own moves.
type Timed struct {
	Left         time.Duration // on the clock; with LeftQuality QualityNone the last value known
	Spent        time.Duration // on this move; 0 when nothing is known
	Used         time.Duration // on all own moves so far, as far as they are known
	LeftQuality  Quality
	SpentQuality Quality
	Doubt        string // the contradiction found with this move, or ""
	Gaps         bool   // of some own move nothing is known, so Used is less than all
}

// First returns a side's clock before its first move.
func (c Control) First(side Side) Timed {
	c = c.For(side)
	if !c.Known() {
		return Timed{}
	}
	return Timed{Left: c.Start(), LeftQuality: QualityRead}
}

// After returns a side's clock after its own move number move (from 1), from the
// clock before it (see Before) and what the feed said. The control is the one For the
// side. Waited is the time between the receipts of the opponent's move and this one; it
// serves only where the feed says nothing, or nothing that can be.
//
// Time left that was read always stands, unless it only repeats the reading before.
// What does not add up becomes a Doubt and leaves the time spent to the receipts, or
// unknown: arbiters do change clocks (FIDE Laws 6.10.2), so a clock may rise. Behind a
// move of which nothing was known, the time spent is unknown too, since the difference
// would be that of two moves.
func (c Control) After(prev Timed, move int, r Reading, waited Value) Timed {
	prev, r, waited = prev.sane(), r.sane(), waited.sane()
	var now Timed
	switch {
	case r.Left.OK:
		now = c.fromLeft(prev, move, r, waited)
	case r.Spent.OK:
		now = c.fromSpent(prev, move, r.Spent.D, "emt")
		now.SpentQuality = QualityRead
	case r.Total.OK:
		now = c.fromTotal(prev, move, r.Total.D)
	default:
		now = c.fromWaiting(prev, move, waited)
	}
	now.Left, now.Spent = shown(now.Left), shown(now.Spent)
	now.Used = shown(prev.Used + now.Spent)
	now.Gaps = prev.Gaps || now.SpentQuality == QualityNone
	if r.Total.OK && r.Total.D >= prev.Used {
		now.Used, now.Gaps = r.Total.D, false
	}
	return now
}

// sane returns what is known with every time inside what can be reckoned with.
func (t Timed) sane() Timed {
	t.Left, t.Spent, t.Used = shown(t.Left), shown(t.Spent), shown(t.Used)
	return t
}

func (r Reading) sane() Reading {
	return Reading{Left: r.Left.sane(), Spent: r.Spent.sane(), Total: r.Total.sane()}
}

func (v Value) sane() Value {
	v.D = shown(v.D)
	return v
}

// grants returns what own move number move adds to the clock.
func (c Control) grants(move int) time.Duration {
	return c.Increment(move) + c.Bonus(move)
}

// guessed reports a clock that was carried on without any idea of the time spent.
func (t Timed) guessed() bool {
	return t.LeftQuality == QualityEstimated && t.SpentQuality == QualityNone
}
