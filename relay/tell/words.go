package tell

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
)

// String returns the verdict as the air says it.
func (v Verdict) String() string {
	switch v {
	case NoClock:
		return "no clock"
	case InPreparation:
		return "in preparation"
	case Thinking:
		return "thinking"
	}
	return "too early to say"
}

// Shade returns the verdict with its doubt, as panel and desk say it. It never
// contradicts the verdict: a side said to be thinking is at the least "probably
// thinking" until that is withdrawn.
func (c Call) Shade() string {
	p := &standard
	switch {
	case c.Verdict == NoClock, c.Timed < p.timedLeast && c.Verdict == Early:
		return c.Verdict.String()
	case c.Verdict == Thinking && c.Thinking >= p.enter, c.Verdict == InPreparation && c.Thinking < p.sure:
		return c.Verdict.String()
	case c.Verdict == Thinking, c.Verdict == Early && c.Thinking >= p.even:
		return "probably thinking"
	}
	return "probably in preparation"
}

// Evidence returns the figures behind the verdict in a few words, for the air.
func (c Call) Evidence() string {
	switch {
	case c.Verdict == NoClock, c.Timed < standard.timedLeast && c.Verdict == Early:
		return ""
	case c.Provisional && c.ElapsedLong && c.Longest:
		return "longest think so far"
	case c.Provisional && c.ElapsedLong:
		return "in a long think"
	case c.Verdict == InPreparation && c.Gained >= time.Second:
		return fmt.Sprintf("%s, %s gained", moves(c.Timed), clock.Format(c.Gained))
	case c.Verdict == InPreparation:
		return fmt.Sprintf("%s in %s", moves(c.Timed), clock.Format(c.Spent))
	case c.LastLong && c.Longest:
		return "longest so far, " + clock.Format(c.LastSpent)
	case c.LastLong:
		return fmt.Sprintf("%s on move %d", clock.Format(c.LastSpent), own(c.Ply))
	}
	return clock.Format(c.Lately) + " a move lately"
}
