package relay

import (
	"time"

	"clocktell/relay/prompt"
)

// What the clocks have left. Judgement.
const (
	belowLimit, belowStart = 5 * time.Minute, 10 * time.Minute
	belowMore              = 2 * time.Minute // that the other has
	halfLeast              = .47             // of the starting time, to be called half of it
	halfOther              = .7              // of that, which the other has at least
	halfMost               = 3.5             // times that the other has, to be called more than double
	halfAgain              = 10              // plies after a lead was told, more of it is news
	anewLeast              = 15 * time.Second
	aheadFrom              = 15 // own moves
)

// stockPaces are of what the clocks have left, as they are when it is told.
func (b *Board) stockPaces(i int, t time.Time, add addPace) {
	side := b.moverOf(i)
	name, other := b.Called(side), b.Called(side.Other())
	left, was, theirs := b.Plies[i].Timed.Left, b.timedBefore(i).Left, b.Plies[i-1].Timed.Left
	start := b.Control.For(side).Start()
	mine, yours := b.Left(side, t), b.Left(side.Other(), t)
	if start >= belowStart && left < belowLimit && was >= belowLimit {
		add("below", side, true, func() (prompt.Prompt, bool) {
			return prompt.Below(b.in, name, other, belowLimit, yours-time.Second), mine < belowLimit && yours > belowLimit+belowMore && !b.troubled()
		})
		add("bothbelow", side, true, func() (prompt.Prompt, bool) {
			return prompt.BothBelow(b.in, belowLimit), mine < belowLimit && yours < belowLimit && !b.troubled()
		})
	}
	if len(b.Control.Periods) == 1 && start/2 > belowLimit && left <= start/2 && was > start/2 {
		number, _ := b.MoveNumber(b.lastOf(side))
		add("half", side, false, func() (prompt.Prompt, bool) {
			return prompt.HalfTime(b.in, name, number, mine), mine <= start/2 && mine >= scaled(start, halfLeast) && yours >= scaled(mine, halfOther) && !b.added(side)
		})
	}
	if 2*left < theirs && 2*was >= theirs && theirs >= time.Minute {
		add("underhalf", side, true, func() (prompt.Prompt, bool) {
			return prompt.UnderHalf(b.in, name, other, mine, yours), 2*mine < yours && yours <= scaled(mine, halfMost) && !b.leadToldSince(len(b.Plies)-halfAgain)
		})
	}
	if b.aheadAnew(i) {
		add("ahead", side, true, func() (prompt.Prompt, bool) {
			return prompt.AheadNow(b.in, name, other, mine-yours), mine >= yours+anewLeast
		})
	}
}

// leadToldSince reports whether a lead on the clock has been told that stands, at a ply or later.
func (b *Board) leadToldSince(ply int) bool {
	for i := range b.Alerts {
		if a := &b.Alerts[i]; a.Kind == AlertClockLead && a.Ply >= ply {
			return true
		}
	}
	return false
}

// aheadAnew reports whether with the ply at an index the mover has more time than the other, and had less
// after each of the moves before, back to the opening.
func (b *Board) aheadAnew(i int) bool {
	if ownMove(i) < aheadFrom || b.Plies[i].Timed.Left < b.Plies[i-1].Timed.Left+anewLeast || b.stood(AlertCatchingUp) {
		return false
	}
	for j := i - 2; ownMove(j) >= aheadFrom/2; j -= 2 {
		if b.Plies[j].Timed.Left >= b.Plies[j-1].Timed.Left {
			return false
		}
	}
	return true
}
