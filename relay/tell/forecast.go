package tell

import (
	"math"
	"time"
)

// forecastLimit is the clock the forecast is about.
func (f *Filter) forecastLimit(s *side) time.Duration {
	return max(troubleAt(f.of(s), 2), part(f.of(s).Start(), forecastShare))
}

// pacing returns mean and deviation of what a move costs the side, in seconds, shrunk
// towards what its control usually brings. Of a delay, all is taken to be used there.
func (f *Filter) pacing(s *side) (mean, sd float64) {
	c := f.of(s)
	pace := f.p.pace(c, own(s.ply)+1)
	mean0, sd0 := meanAt*math.Pow(pace, meanPower)-free(c).Seconds(), sdAt*math.Pow(pace, sdPower)
	mean0 = max(0, mean0)
	n := float64(s.drift.moves)
	mean = (forecastShrink*mean0 + s.drift.sum) / (forecastShrink + n)
	around := s.drift.square - 2*mean*s.drift.sum + n*mean*mean
	variance := (forecastShrink*sd0*sd0 + max(0, around)) / (forecastShrink + n)
	return mean, math.Sqrt(variance)
}

// chance returns the chance that the clock is below the limit after ten own moves,
// or at the control if that is nearer: a normal drift.
func (f *Filter) chance(s *side, left time.Duration) float64 {
	moves := float64(troubleMoves)
	if n := f.of(s).MovesToControl(own(s.ply)); n > 0 {
		moves = min(moves, float64(n))
	}
	mean, sd := f.pacing(s)
	drift := f.of(s).Increment(own(s.ply)+1).Seconds() - mean
	z := (f.forecastLimit(s).Seconds() - left.Seconds() - moves*drift) / (sd * math.Sqrt(moves))
	return tail(-z)
}

// date sets the own move with which the clock reaches the limit, and the moves at
// which a clock at either end of its band does (see Projection). With a clock that does
// not fall, or a control reached before, there is no date.
func (f *Filter) date(s *side, left time.Duration, t *Trouble) {
	mean, sd := f.pacing(s)
	fall := mean - f.of(s).Increment(own(s.ply)+1).Seconds()
	above := left.Seconds() - t.Below.Seconds()
	if fall <= 0 || above <= 0 {
		return
	}
	moves := above / fall
	if moves > 200 || (t.ToControl > 0 && moves > float64(t.ToControl)) {
		return
	}
	at := func(n float64) int { return own(s.ply) + int(math.Ceil(min(n, 1000))) }
	early, _ := meets(above, fall, bandLow*sd, s.drift.weight())
	_, late := meets(above, fall, bandHigh*sd, s.drift.weight())
	t.AtMove, t.From, t.To = at(moves), at(early), at(late)
}

// meets returns after how many moves a clock that falls by fall a move has lost above,
// give or take spread * sqrt(n + n*n/weight): the first and the last such number, which
// may be infinite.
func meets(above, fall, spread, weight float64) (first, last float64) {
	a := fall*fall - spread*spread/weight
	b := 2*above*fall + spread*spread
	root := math.Sqrt(max(0, b*b-4*a*above*above))
	first, last = 2*above*above/(b+root), math.Inf(1)
	if a > 0 {
		last = (b + root) / (2 * a)
	}
	return first, last
}
