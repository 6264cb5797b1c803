package relay

import (
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/tell"
)

const (
	// startFar is how far above what the control allows a first reading must be to be a
	// start of its own, and a later one to be worth a word. Judgement.
	startFar = 10 * time.Second
	// hostShare is how many times the other's start a side has that plays many boards at
	// once: what it takes on one of them is mostly spent on the others. Judgement.
	hostShare = 3
)

// findStarts takes the first reading of a side for its start where it is far above the
// control: of odds of time, as in a simultaneous display, many feeds say nothing else. A
// start that is named counts, and a reading that the next one takes back does not.
func (next *Board) findStarts(readings []clock.Reading) {
	found := [2]clock.Value{}
	for i := 0; i < 2 && i < len(readings); i++ {
		side := next.moverOf(i)
		named := next.Control.Starts[side].OK && !next.found[side].OK
		if first := readings[i].Left; !named && next.startsAbove(first, 1) {
			taken := i+2 < len(readings) && readings[i+2].Left.OK && !next.startsAbove(readings[i+2].Left, 2)
			found[side] = clock.Value{D: first.D, OK: !taken}
		}
	}
	if found == next.found {
		return
	}
	for side := range found {
		if found[side].OK || next.found[side].OK {
			next.Control.Starts[side] = found[side]
		}
	}
	next.found = found
	filter := tell.New(next.Control)
	next.filter0 = &filter
}

// startsAbove reports whether a clock after an own move is far above all that the
// control grants up to it.
func (next *Board) startsAbove(left clock.Value, move int) bool {
	c := next.Control
	if !left.OK || !c.Known() || c.Hourglass() || c.Done > 0 {
		return false
	}
	granted := c.Periods[0].Base
	for m := 1; m <= move; m++ {
		granted += c.Increment(m) + c.Bonus(m)
	}
	return left.D > granted+startFar
}

// hosts reports whether a side plays many boards at once, as its clock tells.
func (b *Board) hosts(side clock.Side) bool {
	start, other := b.Control.For(side).Start(), b.Control.For(side.Other()).Start()
	return other > 0 && start >= hostShare*other
}

// rise returns by how much a clock was higher after the ply at index i than any increment
// explains, 0 if it was not.
func (b *Board) rise(i int) time.Duration {
	ply, before := &b.Plies[i], b.timedBefore(i)
	if ply.Timed.Doubt == "" || ply.Timed.LeftQuality != clock.QualityRead || before.LeftQuality != clock.QualityRead {
		return 0
	}
	control, move := b.Control.For(b.moverOf(i)), ownMove(i)
	return max(0, ply.Timed.Left-before.Left-control.Increment(move)-control.Bonus(move))
}

// risen reports whether the clock of a side rose so far at one of its plies from the
// index from to before the index to.
func (b *Board) risen(side clock.Side, from, to int) bool {
	for i := max(0, from); i < to; i++ {
		if b.moverOf(i) == side && b.rise(i) >= startFar {
			return true
		}
	}
	return false
}
