package clock

import (
	"fmt"
	"time"
)

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
}

// First returns the clock before the first move.
func (c Control) First() Timed {
	if !c.Known() {
		return Timed{}
	}
	return Timed{Left: c.Start(), LeftQuality: QualityRead}
}

// After returns a side's clock after its own move number move (from 1), from the
// clock before it and what the feed said. Clocks are taken to be read after the
// increment. Waited is the time between the receipts of the opponent's move and
// this one; it serves only when the feed says nothing.
//
// Time left that was read always stands. What does not add up becomes a Doubt and
// leaves the time spent unknown: arbiters do change clocks (FIDE Laws 6.10.2), so
// a clock may rise. Behind a move of which nothing was known, the time spent is
// unknown too, since the difference would be that of two moves.
func (c Control) After(prev Timed, move int, r Reading, waited Value) Timed {
	var now Timed
	switch {
	case r.Left.OK:
		now = c.fromLeft(prev, move, r)
	case r.Spent.OK:
		now = c.fromSpent(prev, move, max(0, r.Spent.D), "emt")
		now.SpentQuality = QualityRead
	case r.Total.OK:
		now = c.fromTotal(prev, move, r.Total.D)
	default:
		now = c.fromWaiting(prev, move, waited)
	}
	now.Used = prev.Used + now.Spent
	if r.Total.OK && r.Total.D >= prev.Used {
		now.Used = r.Total.D
	}
	return now
}

// grants returns what own move number move adds to the clock.
func (c Control) grants(move int) time.Duration {
	return c.Increment(move) + c.Bonus(move)
}

// fromLeft works from a reading of the clock.
func (c Control) fromLeft(prev Timed, move int, r Reading) Timed {
	now := Timed{Left: max(0, r.Left.D), LeftQuality: QualityRead}
	if c.blind(prev, move, now.Left) {
		if r.Spent.OK {
			now.Spent, now.SpentQuality = max(0, r.Spent.D), QualityRead
		}
		return now
	}
	spent := prev.Left - now.Left + c.grants(move)
	if now.Doubt = c.impossible(prev, move, spent); now.Doubt != "" || spent < -rounding {
		return now
	}
	now.Spent, now.SpentQuality = max(0, spent), QualityRead
	if prev.LeftQuality != QualityRead {
		now.SpentQuality = QualityDerived
	}
	if r.Spent.OK && (now.Spent-r.Spent.D).Abs() > contradiction {
		now.Doubt = mismatch(r.Spent.D, prev.Left-now.Left, c.grants(move))
	}
	return now
}

// guessed reports a clock that was carried on without any idea of the time spent.
func (t Timed) guessed() bool {
	return t.LeftQuality == QualityEstimated && t.SpentQuality == QualityNone
}

// blind reports whether the difference of two clocks says nothing of this move: an
// hourglass, no clock before, or a first move that did not start the clock (it
// then shows the base time and no increment; common in online play).
func (c Control) blind(prev Timed, move int, left time.Duration) bool {
	if prev.LeftQuality == QualityNone || prev.guessed() || c.Period(move).Kind == KindSandclock {
		return true
	}
	return move == 1 && c.Increment(1) > 0 && left == c.Start()
}

// fromSpent works from a time spent, with source naming where it came from.
func (c Control) fromSpent(prev Timed, move int, spent time.Duration, source string) Timed {
	now := Timed{Left: prev.Left, Spent: spent, SpentQuality: QualityDerived}
	if !c.Known() || prev.LeftQuality == QualityNone {
		return now
	}
	if spent > prev.Left+rounding {
		now.Doubt = fmt.Sprintf("%s %s but only %s was left", source, Format(spent), Format(prev.Left))
	}
	now.Left = max(0, prev.Left-spent) + c.grants(move)
	now.LeftQuality = QualityDerived
	return now
}

// fromTotal works from the total used since the game began. That total also gives
// the clock when the moves before are unknown, but then not what this one cost.
func (c Control) fromTotal(prev Timed, move int, total time.Duration) Timed {
	if total < prev.Used {
		doubt := fmt.Sprintf("egt %s is below the %s used before", Format(total), Format(prev.Used))
		return Timed{Left: prev.Left, Doubt: doubt}
	}
	if c.Known() && prev.LeftQuality == QualityNone {
		return Timed{Left: max(0, c.granted(move)-total), LeftQuality: QualityDerived}
	}
	if !c.Known() && prev.Used == 0 && move > 1 {
		return Timed{Left: prev.Left} // the first total heard covers more than this move
	}
	return c.fromSpent(prev, move, total-prev.Used, "egt")
}

// fromWaiting estimates from receipt times when the feed says nothing at all. If
// they tell nothing either, the move is taken to have cost its increment, so that
// the clock goes on as an estimate; the time spent stays unknown.
func (c Control) fromWaiting(prev Timed, move int, waited Value) Timed {
	now := Timed{Left: prev.Left}
	known := c.Known() && prev.LeftQuality != QualityNone
	if !waited.OK {
		if known {
			now.Left, now.LeftQuality = prev.Left+c.Bonus(move), QualityEstimated
		}
		return now
	}
	now.Spent, now.SpentQuality = max(0, waited.D), QualityEstimated
	if !known {
		return now
	}
	now.Spent = min(now.Spent, prev.Left)
	now.Left, now.LeftQuality = prev.Left-now.Spent+c.grants(move), QualityEstimated
	return now
}
