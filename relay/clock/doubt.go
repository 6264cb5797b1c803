package clock

import (
	"fmt"
	"time"
)

// repeatSlack is by how much receipts must contradict a reading that is the same as the
// one before: two receipts of five seconds each, and a feed's own delay.
const repeatSlack = 15 * time.Second

// repeats names a reading that the feed only wrote again, or returns "": it is exactly
// the one before, and the move took much longer than that would mean.
func (c Control) repeats(prev Timed, move int, left time.Duration, waited Value) string {
	if move == 1 || prev.LeftQuality != QualityRead || left != prev.Left || !waited.OK || !c.Known() {
		return ""
	}
	slack := repeatSlack
	if c.Reads.Step > time.Second {
		slack += c.Reads.Step // the same minute is no repetition
	}
	if waited.D <= c.grants(move)+c.Delay.granted()+slack {
		return ""
	}
	return fmt.Sprintf("clock repeats %s, but the move took about %s", Format(left), Format(waited.D))
}

// impossible names why no move can have cost that, or returns "". Without a control a
// rise may be an increment, so it is no contradiction.
func (c Control) impossible(prev Timed, move int, cost time.Duration) string {
	slack := c.Reads.tolerance()
	switch {
	case !c.Known():
		return ""
	case cost < -slack && c.grants(move) > 0:
		return fmt.Sprintf("clock rose by %s more than its increment", Format(-cost))
	case cost < -slack:
		return fmt.Sprintf("clock rose by %s", Format(-cost))
	case cost > prev.Left+slack:
		return fmt.Sprintf("clock fell by %s with its increment, but only %s was left", Format(cost), Format(prev.Left))
	}
	return ""
}

// tooLong names a time spent beyond what was left, or returns "".
func (c Control) tooLong(prev Timed, spent time.Duration, source string) string {
	if c.costs(spent) <= prev.Left+c.Reads.tolerance() {
		return ""
	}
	return fmt.Sprintf("%s %s but only %s was left", source, Format(spent), Format(prev.Left))
}

// otherwise names an emt or egt beside a clock that does not say the same, or returns
// "". The clock counts.
func (c Control) otherwise(prev Timed, move int, r Reading, now Timed) string {
	most := contradiction + c.Reads.tolerance() - rounding
	free := time.Duration(0)
	if now.SpentQuality == QualityEstimated {
		free = c.Delay.granted() // the clock says no more than that
	}
	if r.Spent.OK && (now.Spent-r.Spent.D).Abs() > most+free {
		return mismatch(r.Spent.D, prev.Left-now.Left, c.grants(move))
	}
	if !r.Total.OK || prev.Gaps {
		return ""
	}
	if r.Total.D < prev.Used-most {
		return fell(r.Total.D, prev.Used)
	}
	if spent := r.Total.D - prev.Used; (now.Spent - spent).Abs() > most+free {
		return fmt.Sprintf("egt grew by %s but the clock says %s was spent", Format(spent), Format(now.Spent))
	}
	return ""
}

// fell names a total that is less than before.
func fell(total, used time.Duration) string {
	return fmt.Sprintf("egt %s is below the %s used before", Format(total), Format(used))
}

// mismatch names a time spent that is not what the clock says.
func mismatch(spent, fall, grants time.Duration) string {
	if grants == 0 {
		return fmt.Sprintf("emt %s but the clock fell by %s", Format(spent), Format(fall))
	}
	return fmt.Sprintf("emt %s but the clock says %s, increment counted", Format(spent), Format(fall+grants))
}
