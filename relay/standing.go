package relay

import (
	"time"

	"clocktell/relay/clock"
)

// Last returns what is known of a side's clock after its own last move. In an
// hourglass the side on move has got since then what the other has used.
func (b *Board) Last(side clock.Side) clock.Timed {
	for i := len(b.Plies) - 1; i >= 0; i-- {
		if b.moverOf(i) == side {
			if i == len(b.Plies)-1 {
				return b.Plies[i].Timed
			}
			return b.Control.Before(b.Plies[i].Timed, b.Plies[i+1].Timed)
		}
	}
	first := b.Control.First(side)
	if len(b.Plies) == 1 {
		return b.Control.Before(first, b.Plies[0].Timed)
	}
	return first
}

// Left returns a side's clock at t, counted down while it runs. Of a held board
// it is where the clock stood when the silence was noticed, and of a finished game
// where it stood at the end, so that it does not jump up on the air. In an hourglass the
// other side's rises by as much.
func (b *Board) Left(side clock.Side, t time.Time) time.Duration {
	left := b.Last(side).Left
	if b.Turn() == side {
		return b.Control.Running(left, b.Elapsed(t)-b.cut())
	}
	if b.Control.Hourglass() && b.Last(side.Other()).LeftQuality != clock.QualityNone {
		left += b.Last(side.Other()).Left - b.Left(side.Other(), t)
	}
	return max(0, left)
}

// RunsFrom returns since when the clock of the side on move has been falling. That
// may be a little later than Anchor, see cut, or by a delay.
func (b *Board) RunsFrom() time.Time {
	return b.Anchor.Add(b.cut() + b.Control.StandsFor())
}

// cut is what is missing in the middle from a clock whose readings are cut to whole
// steps: a running one is so much higher than its last reading tells. It is never
// shown above that.
func (b *Board) cut() time.Duration {
	if !b.Timing.Learnt {
		return 0
	}
	return b.step() / 2
}

// Coarse reports that the feed gives minutes only: what a running clock shows of
// seconds is an estimate.
func (b *Board) Coarse() bool { return b.Control.Reads.Step >= time.Minute }
