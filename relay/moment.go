package relay

import (
	"math"
	"slices"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/tell"
)

// lookEvery is how often a board whose clock runs is looked at between events:
// the finest step in which a long think or time trouble is noticed.
const lookEvery = time.Second

// Due returns when time alone may next change the board; zero: never.
func (b *Board) Due() time.Time {
	if b.Over() || b.Held() || len(b.Plies) == 0 { // no clock runs
		return time.Time{}
	}
	return b.checked.Add(lookEvery)
}

// Advance returns the board as it is at t with no event since: a new revision if
// that looks different.
func (b *Board) Advance(t time.Time) *Board {
	next := *b
	next.settle(t, []clock.Side{b.Turn()})
	if b.looksLike(&next) {
		// Not visible, so not a revision: what is published stays, and only the
		// moment of looking moves on.
		next = *b
		next.checked = t
		return &next
	}
	next.Rev, next.Since, next.News, next.Keep = b.Rev+1, t, false, len(b.Plies)
	return &next
}

// hold returns the board as its feed falls silent, since that time, or speaks
// again, since zero.
func (b *Board) hold(since, t time.Time) *Board {
	if b.Silent.Equal(since) {
		return b
	}
	next := *b
	next.Silent, next.Keep = since, len(b.Plies)
	switch {
	case since.IsZero() && b.Fault == "":
		next.HeldAt = time.Time{}
	case b.HeldAt.IsZero():
		next.HeldAt = t
	}
	return b.succeeded(&next, t, false)
}

// holdFault stops the clocks of a board that cannot follow its game any further,
// from when it was first noticed on.
func (b *Board) holdFault(before *Board, t time.Time) {
	switch {
	case b.Fault == "" && before.Fault != "" && b.Silent.IsZero():
		b.HeldAt = time.Time{}
	case b.Fault == "":
	case before.Game == b.Game && before.Fault != "" && before.Held():
		b.HeldAt = before.HeldAt
	default:
		b.HeldAt = t
	}
}

// bothSides is for a board on which something has happened. Otherwise only what is
// said of the side on move changes with time.
var bothSides = []clock.Side{clock.White, clock.Black}

// settle works out everything that depends on the moment for these sides. While the
// feed is silent everything stays as it stood: nothing that is said then is news.
func (b *Board) settle(t time.Time, sides []clock.Side) {
	b.checked = t
	if !b.Silent.IsZero() {
		b.Alerts = b.restaked(t)
		return
	}
	filter := b.filterBefore(len(b.Plies))
	for _, side := range sides {
		b.Calls[side] = b.callAt(filter, side, t)
		b.Levels[side] = b.troubleAt(filter, side, t)
		b.Ahead[side] = b.aheadAt(filter, side, t)
	}
	b.Alerts = b.renewed(b.conditions(filter, t))
}

func (b *Board) callAt(filter tell.Filter, side clock.Side, t time.Time) tell.Call {
	turn, running := b.Running()
	if !running || turn != side || b.Held() {
		return filter.Call(side)
	}
	return filter.Running(side, b.Elapsed(t), pressureOf(b.lastMove()), len(b.position().ValidMoves()))
}

// counts reports whether a side's time left is worth looking at.
func (b *Board) counts(side clock.Side) bool {
	unmoved := len(b.Plies) < 2 // its clock has not run yet
	return !b.Over() && !unmoved && b.Last(side).LeftQuality != clock.QualityNone
}

func (b *Board) aheadAt(filter tell.Filter, side clock.Side, t time.Time) Ahead {
	if !b.counts(side) {
		return Ahead{}
	}
	return aheadOf(filter.Projection(side, b.Left(side, t)))
}

func (b *Board) troubleAt(filter tell.Filter, side clock.Side, t time.Time) tell.Trouble {
	if !b.counts(side) {
		return tell.Trouble{}
	}
	return filter.TroubleAfter(side, b.Left(side, t), b.Levels[side])
}

// visibleStep is the change of a probability that is worth a new picture.
const visibleStep = 0.05

func (b *Board) looksLike(next *Board) bool {
	for side := range b.Calls {
		was, is := &b.Calls[side], &next.Calls[side]
		if was.Shade() != is.Shade() || was.Evidence() != is.Evidence() || first(was.Reasons) != first(is.Reasons) ||
			math.Abs(was.Thinking-is.Thinking) >= visibleStep ||
			!sameTrouble(b.Levels[side], next.Levels[side]) {
			return false
		}
	}
	return slices.EqualFunc(b.Alerts, next.Alerts, func(x, y Alert) bool { return x.ID == y.ID })
}

// sameTrouble reports whether two states of time trouble look alike.
func sameTrouble(x, y tell.Trouble) bool {
	return x.Level == y.Level && (x.Level < TroubleShows || x.InShort() == y.InShort())
}

// TroubleShows is the level from which time trouble is a fact, and its figures
// matter more than those of the tell; below it is a forecast.
const TroubleShows = 2

func first(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return list[0]
}
