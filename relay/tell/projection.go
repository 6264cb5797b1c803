package tell

import (
	"math"
	"time"

	"clocktell/relay/clock"
)

// Projection is where a side's clock is going at its own pace.
type Projection struct {
	Made int // own moves so far
	To   int // the last own move that can be projected, 0: any; beyond it the control adds time

	left, inc time.Duration
	mean, sd  float64 // of what a move costs, in seconds
	weight    float64 // moves' worth of knowledge behind mean
	known     bool
}

// Projection returns where the clock of a side with left on it is going: by the mean of
// the forecast (see Trouble), with a band for the spread of the moves and for how little
// is known of the mean. The band reaches further down than up, as long thinks do; its
// width is that of real games (TestAssessProjection), not of theory, by which moves
// would be independent and the band less than half as wide.
func (f Filter) Projection(who clock.Side, left time.Duration) Projection {
	s := &f.sides[who&1]
	p := Projection{Made: own(s.ply), left: max(0, left), inc: f.of(s).Increment(own(s.ply) + 1), known: f.foresees(s)}
	if n := f.of(s).MovesToControl(p.Made); n > 0 {
		p.To = p.Made + n
	}
	p.mean, p.sd = f.pacing(s)
	p.weight = s.drift.weight()
	return p
}

// At returns the clock after own move number move, time that a control adds with it
// left out: the middle, and the bounds between which it is four times in five. OK is
// false for a move already made, one beyond To, and while too few own moves were timed.
func (p Projection) At(move int) (middle, low, high time.Duration, ok bool) {
	const longGame = 300 // own moves ahead
	n := float64(move - p.Made)
	if !p.known || n < 1 || n > longGame || (p.To > 0 && move > p.To) {
		return 0, 0, 0, false
	}
	granted := time.Duration(n) * p.inc
	after := func(deviations float64) time.Duration {
		cost := inSeconds(n*p.mean + deviations*p.sd*math.Sqrt(n+n*n/p.weight))
		return max(0, p.left+granted-max(0, cost)) // nobody uses less than nothing
	}
	return after(0), after(bandLow), after(-bandHigh), true
}
