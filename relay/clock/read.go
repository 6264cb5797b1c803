package clock

import "time"

// fromLeft works from a reading of the clock.
func (c Control) fromLeft(prev Timed, move int, r Reading, waited Value) Timed {
	left := c.afterMove(prev, move, r.Left.D)
	if doubt := c.repeats(prev, move, left, waited); doubt != "" {
		now := c.fromWaiting(prev, move, waited)
		now.Doubt = doubt
		return now
	}
	now := Timed{Left: left, LeftQuality: QualityRead}
	if c.blind(prev, move, r.Left.D) {
		if r.Spent.OK {
			now.Spent, now.SpentQuality = r.Spent.D, QualityRead
		}
		return now
	}
	cost := prev.Left - left + c.grants(move)
	if now.Doubt = c.impossible(prev, move, cost); now.Doubt != "" || cost < -c.Reads.tolerance() {
		if waited.OK && c.Known() {
			now.Spent, now.SpentQuality = waited.D, QualityEstimated
		}
		return now
	}
	now.Spent, now.SpentQuality = c.spentBy(cost, waited)
	if prev.LeftQuality != QualityRead {
		now.SpentQuality = worse(now.SpentQuality, QualityDerived)
	}
	now.Doubt = c.otherwise(prev, move, r, now)
	return now
}

// afterMove returns the clock after the move of a reading that may be older: before
// the increment is added, or before a Bronstein delay is given back.
func (c Control) afterMove(prev Timed, move int, left time.Duration) time.Duration {
	if !c.Reads.Before || !c.Known() || (move == 1 && left == c.Start()) {
		return left
	}
	if c.Delay.Kind == Bronstein && prev.LeftQuality != QualityNone {
		left += min(max(0, prev.Left-left), c.Delay.granted())
	}
	return shown(left + c.Increment(move))
}

// blind reports whether the difference of two clocks says nothing of this move: no
// clock before, or a first move that did not start the clock (it then shows the base
// time and no increment; common in online play).
func (c Control) blind(prev Timed, move int, left time.Duration) bool {
	if prev.LeftQuality == QualityNone || prev.guessed() {
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
	now.Doubt = c.tooLong(prev, spent, source)
	now.Left = max(0, prev.Left-c.costs(spent)) + c.grants(move)
	now.LeftQuality = worse(QualityDerived, prev.LeftQuality)
	return now
}

// fromTotal works from the total used since the game began. That total also gives
// the clock when the moves before are unknown, but then not what this one cost.
func (c Control) fromTotal(prev Timed, move int, total time.Duration) Timed {
	if total < prev.Used {
		return Timed{Left: prev.Left, Doubt: fell(total, prev.Used)}
	}
	if c.Known() && prev.LeftQuality == QualityNone && c.adds() {
		return Timed{Left: max(0, c.granted(move)-total), LeftQuality: QualityDerived}
	}
	if !c.Known() && prev.Used == 0 && move > 1 {
		return Timed{Left: prev.Left} // the first total heard covers more than this move
	}
	return c.fromSpent(prev, move, total-prev.Used, "egt")
}

// adds reports whether time used and time left make up what was granted: not where
// some of the time is free, or goes to the other side.
func (c Control) adds() bool {
	return c.Delay.granted() == 0 && !c.Hourglass()
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
	now.Spent, now.SpentQuality = waited.D, QualityEstimated
	if !known {
		return now
	}
	now.Spent = min(now.Spent, prev.Left+c.Delay.granted())
	now.Left, now.LeftQuality = prev.Left-c.costs(now.Spent)+c.grants(move), QualityEstimated
	return now
}
