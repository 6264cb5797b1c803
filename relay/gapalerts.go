package relay

import (
	"slices"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
	"clocktell/relay/tell"
)

// gapConditions lists what there is to say of one clock against the other: a lead, and
// a clock that has caught up.
func (b *Board) gapConditions(filter tell.Filter, t time.Time) []Alert {
	if b.Last(clock.White).LeftQuality == clock.QualityNone || b.Last(clock.Black).LeftQuality == clock.QualityNone {
		return nil
	}
	if b.acrossControl(len(b.Plies)) {
		return nil
	}
	left := [2]time.Duration{b.Left(clock.White, t), b.Left(clock.Black, t)}
	led := b.stood(AlertClockLead)
	if lead, ok := filter.Lead(left, led); ok {
		if said, live := b.saying(AlertLongThink, lead.Side.Other()); live && !led && said.Ply > len(b.Plies) {
			return nil // that think is what there is to say, as long as it lasts
		}
		say := prompt.ClockLead(b.in, b.Called(lead.Side), leadOf(lead))
		if !led && b.comparedBy() {
			say.Priority = prompt.Silent // it has just been told in other words
		}
		return []Alert{b.alert(AlertClockLead, lead.Side, 0, t, say)} // so the other has not caught up
	}
	stood := b.stood(AlertCatchingUp)
	if !stood { // not while a clock runs: the think of the one is what there is to say, and that of the other may undo it
		left = [2]time.Duration{b.Last(clock.White).Left, b.Last(clock.Black).Left}
	}
	closing, ok := filter.Closing(left, stood)
	if !ok || b.acrossControl(closing.Ply) || !stood && b.Turn() == closing.Side {
		return nil
	}
	number, _ := b.MoveNumber(closing.Ply - 1)
	say := prompt.CatchingUp(b.in, b.Called(closing.Side), number, closing.Most, closing.By)
	return []Alert{b.alert(AlertCatchingUp, closing.Side, 0, t, say)}
}

// acrossControl reports whether after n plies one side has made the control and the other
// has its move to it still to come: what the first was given for it is no lead.
func (b *Board) acrossControl(n int) bool {
	return n%2 == 1 && b.Control.MovesToControl(n/2) == 1
}

// stood reports whether an alert of a kind was raised before and not cleared.
func (b *Board) stood(kind AlertKind) bool {
	return slices.ContainsFunc(b.Alerts, func(a Alert) bool { return a.Kind == kind })
}
