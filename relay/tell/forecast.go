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
// which a clock ahead of the drift or behind it by 80 % of its spread does. With a
// clock that does not fall, or a control reached before, there is no date.
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
	spread := eightyPercent * sd
	root := math.Sqrt(spread*spread + 4*fall*above)
	early, late := (root-spread)/(2*fall), (root+spread)/(2*fall)
	at := func(n float64) int { return own(s.ply) + int(math.Ceil(min(n, 1000))) }
	t.AtMove, t.From, t.To = at(moves), at(early*early), at(late*late)
}
