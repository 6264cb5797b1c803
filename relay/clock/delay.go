package clock

import (
	"fmt"
	"time"
)

// DelayKind is how a delay works. The PGN standard has no field for it, so it comes
// from the configuration.
type DelayKind uint8

// The kinds. FIDE's Laws, 6.3.2, know a delay mode; which moves of the hands it makes
// is common practice, no source.
const (
	NoDelay   DelayKind = iota
	Simple              // the clock stands still for so long, then falls
	Bronstein           // the clock falls at once; what was used, up to so much, is given back
)

// Delay is time that is free on every move and never saved up.
type Delay struct {
	Kind DelayKind
	Time time.Duration
}

// maxDelay bounds what ParseDelay takes.
const maxDelay = 10 * time.Minute

// String returns "simple", "Bronstein" or "".
func (k DelayKind) String() string {
	switch k {
	case Simple:
		return "simple"
	case Bronstein:
		return "Bronstein"
	}
	return ""
}

// ParseDelay returns a delay of a kind, "simple" or "bronstein". Zero time is none.
func ParseDelay(kind string, d time.Duration) (Delay, error) {
	if d < 0 || d > maxDelay {
		return Delay{}, fmt.Errorf("a delay of %v is out of range; 0s to %v", d, maxDelay)
	}
	k := NoDelay
	switch kind {
	case "simple":
		k = Simple
	case "bronstein":
		k = Bronstein
	default:
		return Delay{}, fmt.Errorf(`%q is no kind of delay; there are "simple" and "bronstein"`, clip(kind))
	}
	if d == 0 {
		return Delay{}, nil
	}
	return Delay{Kind: k, Time: d}, nil
}

// granted returns what is free on a move.
func (d Delay) granted() time.Duration {
	if d.Kind == NoDelay {
		return 0
	}
	return shown(d.Time)
}

// costs returns by how much a clock is lower after spent: with either kind the same.
func (c Control) costs(spent time.Duration) time.Duration {
	return max(0, spent-c.Delay.granted())
}

// spentBy returns the time spent on a move that cost so much of the clock, and how
// far it can be trusted. A move inside the delay costs nothing and leaves no trace: it
// is taken to have lasted as the receipts tell, or half the delay.
func (c Control) spentBy(cost time.Duration, waited Value) (time.Duration, Quality) {
	free := c.Delay.granted()
	if free == 0 || cost > 0 {
		return max(0, cost) + free, QualityRead
	}
	if waited.OK {
		return max(0, min(waited.D, free)), QualityEstimated
	}
	return free / 2, QualityEstimated
}

// Running returns what a clock shows that has run for elapsed.
func (c Control) Running(left, elapsed time.Duration) time.Duration {
	if c.Delay.Kind == Simple {
		elapsed = c.costs(elapsed)
	}
	return max(0, left-max(0, elapsed))
}

// StandsFor returns how long a clock stands still before it falls.
func (c Control) StandsFor() time.Duration {
	if c.Delay.Kind == Simple {
		return c.Delay.granted()
	}
	return 0
}
