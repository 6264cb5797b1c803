package overlay

import (
	"strings"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/clock"
)

func controlView(c clock.Control) wire.Control {
	if !c.Known() {
		return wire.Control{}
	}
	view := wire.Control{
		Text: c.String(), BaseMs: c.Start().Milliseconds(), IncrementMs: c.Increment(1).Milliseconds(), Class: c.Class().String(),
		Hourglass: c.Hourglass(),
	}
	if c.Delay.Kind != clock.NoDelay {
		view.Delay, view.DelayMs = strings.ToLower(c.Delay.Kind.String()), c.Delay.Time.Milliseconds()
	}
	return view
}

// clockView says how a side's clock stands, and how exactly that is known.
func clockView(b *relay.Board, side clock.Side) wire.Clock {
	if b.Secret {
		return wire.Clock{State: wire.StateHeld, At: b.HeldAt.UnixMilli(), Quality: wire.QualityNone}
	}
	last := b.Last(side)
	view := wire.Clock{
		LeftMs: last.Left.Milliseconds(), At: b.Since.UnixMilli(), State: wire.StateStopped, Quality: last.LeftQuality.String(),
		StepMs: b.Control.Reads.Step.Milliseconds(),
	}
	view.Mark, view.Remark = lastMark(b, side)
	_, running := b.Running()
	switch {
	case running && b.Held():
		view.State, view.At, view.LeftMs = wire.StateHeld, b.HeldAt.UnixMilli(), b.Left(side, b.HeldAt).Milliseconds()
		view.SpentMs = b.Elapsed(b.HeldAt).Milliseconds()
	case b.Over():
		end(b, side, &view)
	case running:
		run(b, side, &view)
	}
	return view
}

// end tells where a clock stood when the game ended.
func end(b *relay.Board, side clock.Side, view *wire.Clock) {
	turn := b.Turn() == side
	if !turn && !b.Control.Hourglass() {
		return
	}
	view.LeftMs = b.Left(side, b.EndedAt).Milliseconds()
	spent := b.Elapsed(b.EndedAt).Milliseconds()
	if turn {
		view.SpentMs = spent
	}
	if spent > 0 {
		estimate(view)
	}
}

// run tells how a clock goes on from its last reading: the one of the side on move
// falls, and in an hourglass the other one rises.
func run(b *relay.Board, side clock.Side, view *wire.Clock) {
	switch {
	case b.Turn() == side:
		view.State, view.SpentMs = wire.StateRunning, b.RunsFrom().Sub(b.Anchor).Milliseconds()
	case b.Control.Hourglass() && b.Last(side.Other()).LeftQuality != clock.QualityNone:
		view.State = wire.StateRising
	default:
		return
	}
	view.At, view.UnsureMs = b.RunsFrom().UnixMilli(), b.Unsure().Milliseconds()
	if !b.AnchorSure() || b.Coarse() {
		estimate(view)
	}
}

// estimate says that a clock is not simply what was read, if it is anything.
func estimate(view *wire.Clock) {
	if view.Quality != wire.QualityNone {
		view.Quality = wire.QualityEstimated
	}
}

// lastMark is the mark of the last reading of a side.
func lastMark(b *relay.Board, side clock.Side) (mark, remark string) {
	for i := len(b.Plies) - 1; i >= 0; i-- {
		if _, mover := b.MoveNumber(i); mover == side {
			return markOf(&b.Plies[i])
		}
	}
	return "", ""
}

// markOf says what is the matter with the reading of a ply, in a word and in a few; "" if
// nothing is.
func markOf(p *relay.Ply) (mark, remark string) {
	switch {
	case p.Misread != "":
		return wire.MarkUnread, p.Misread
	case p.Timed.Doubt != "":
		return wire.MarkDoubtful, p.Timed.Doubt
	case p.Mended != "":
		return wire.MarkMended, p.Mended
	}
	return "", ""
}
