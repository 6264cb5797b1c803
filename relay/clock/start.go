package clock

import (
	"slices"
	"time"
)

// longest bounds every time that is reckoned with, either way: above any game, and
// far from where sums of durations overflow.
const longest = maxHours * time.Hour

// within returns d between -longest and longest.
func within(d time.Duration) time.Duration { return max(-longest, min(d, longest)) }

// shown returns d as a clock can show it, from zero to longest.
func shown(d time.Duration) time.Duration { return max(0, min(d, longest)) }

// For returns the control as it is for one side: in an armageddon, or after an
// adjournment, the two clocks start unequal.
func (c Control) For(side Side) Control {
	c.start = c.Starts[side&1]
	return c
}

// Same reports whether both controls reckon alike.
func (c Control) Same(other Control) bool {
	return slices.Equal(c.Periods, other.Periods) && c.Delay == other.Delay && c.Starts == other.Starts &&
		c.Done == other.Done && c.Reads == other.Reads && c.start == other.start
}

// Hourglass reports that each side gets what the other uses.
func (c Control) Hourglass() bool { return c.Period(1).Kind == KindSandclock }

// Before returns a side's clock before its next move, from its own after its last
// one and the opponent's after the one between. They differ in an hourglass, where
// each side gets what the other uses: together the two clocks always show the same.
func (c Control) Before(own, other Timed) Timed {
	if !c.Hourglass() || own.LeftQuality == QualityNone {
		return own
	}
	switch {
	case other.SpentQuality != QualityNone:
		own.Left = shown(within(own.Left) + within(other.Spent))
		own.LeftQuality = worse(own.LeftQuality, other.SpentQuality)
	case other.LeftQuality != QualityNone:
		both := c.For(White).Start() + c.For(Black).Start()
		if left := shown(both - within(other.Left)); left != own.Left {
			own.Left, own.LeftQuality = left, worse(QualityDerived, other.LeftQuality)
		}
	default:
		own.LeftQuality = QualityEstimated
	}
	return own
}

// worse returns the quality that can be trusted less.
func worse(a, b Quality) Quality {
	if a == QualityNone || b == QualityNone {
		return QualityNone
	}
	return max(a, b)
}
