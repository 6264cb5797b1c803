package tell

import (
	"time"

	"clocktell/relay/clock"
)

// free returns what is free on every move of a control with a delay, 0 without one.
func free(c clock.Control) time.Duration {
	const most = time.Hour
	if c.Delay.Kind == clock.NoDelay {
		return 0
	}
	return min(max(c.Delay.Time, 0), most)
}

// allowance returns what own move number move may take without the clock falling
// behind: its increment, or the delay, which for the pace of a game is the same.
func allowance(c clock.Control, move int) time.Duration { return c.Increment(move) + free(c) }

// costs returns by how much a clock falls that is thought on for spent, increments
// aside: with a delay, less than that.
func costs(c clock.Control, spent time.Duration) time.Duration { return max(0, spent-free(c)) }

// stage returns base time and number of own moves of the stage in which own move number
// move is made. A side whose clock did not start at the base of the control, in an
// armageddon or after an adjournment, has that instead, for the moves that were left.
func (p *params) stage(c clock.Control, move int) (base time.Duration, moves float64) {
	period := c.Period(move)
	base, moves = period.Base, p.movesPerGame
	if period.Moves > 0 {
		moves = float64(period.Moves)
	}
	first := c.MovesToControl(0) // own moves of the stage in which the clocks were set, 0: all
	if c.Start() == c.Periods[0].Base || (first > 0 && move > first) {
		return base, moves
	}
	switch {
	case first > 0:
		moves = float64(first)
	case c.Done > 0:
		moves = max(movesLeftLeast, p.movesPerGame-float64(c.Done))
	}
	return c.Start(), moves
}
