package clock

import (
	"slices"
	"time"
)

// Limits of Mend.
const (
	swapLeast  = 6                // plies whose time is known otherwise, before a feed is said to swap its clocks
	swapMost   = 24               // of them, the newest are asked
	swapFits   = 3 * time.Second  // the swapped clocks fit those times so well, in the median
	swapMisses = 6 * time.Second  // and the clocks as they stand so badly
	pairFits   = 5 * time.Second  // both of two swapped clocks fit so well
	pairMisses = 45 * time.Second // and one of them as it stands so badly
)

// Words for what Mend has put right.
const (
	MendedAll  = "the feed writes each side's clock behind the other's move; put right"
	MendedPair = "two clocks were swapped between the sides; put right"
)

// Mend returns the readings of a game, one a ply and White's first, with clocks that
// stand with the wrong side put right, and at which plies and why; both slices are new
// or nil. Waited are the times between receipts, as After takes them.
//
// Both a feed that writes each side's clock behind the other's move, and two clocks that
// are swapped once, are found by the times that receipts or emt tell. Clocks alone do not
// show it: most swaps can be a long think, or be made good by swapping others.
func (c Control) Mend(readings []Reading, waited []Value) ([]Reading, map[int]string) {
	if !c.Known() || !c.adds() {
		return readings, nil
	}
	if c.swapped(readings, waited) {
		return shifted(readings), map[int]string{len(readings) - 1: MendedAll}
	}
	out, why := readings, map[int]string(nil)
	last := [2]Value{{c.For(White).Start(), true}, {c.For(Black).Start(), true}}
	for i := range out {
		if i+1 < len(out) && c.crossed(last, i, out, waited) {
			if why == nil {
				out, why = slices.Clone(out), make(map[int]string)
			}
			out[i].Left, out[i+1].Left = out[i+1].Left, out[i].Left
			why[i], why[i+1] = MendedPair, MendedPair
		}
		last[i%2] = out[i].Left
	}
	return out, why
}

// crossed reports whether the clocks of two plies fit what else is known only if swapped.
func (c Control) crossed(last [2]Value, i int, readings []Reading, waited []Value) bool {
	mine, other := last[i%2], last[(i+1)%2]
	first, second := known(readings[i], waited, i), known(readings[i+1], waited, i+1)
	if !readings[i].Left.OK || !readings[i+1].Left.OK || !mine.OK || !other.OK || !first.OK || !second.OK {
		return false
	}
	miss := func(before, after, known Value, ply int) time.Duration {
		cost := within(before.D) - within(after.D) + c.grants(ply/2+1)
		return (cost - within(known.D)).Abs()
	}
	x, y := readings[i].Left, readings[i+1].Left
	return max(miss(mine, y, first, i), miss(other, x, second, i+1)) <= pairFits &&
		max(miss(mine, x, first, i), miss(other, y, second, i+1)) >= pairMisses
}

// known returns how long a ply took, as emt or the receipts tell.
func known(r Reading, waited []Value, i int) Value {
	if r.Spent.OK || i >= len(waited) {
		return r.Spent
	}
	return waited[i]
}

// shifted returns each reading of a clock one ply earlier, where it belongs. What the
// last ply left is not known yet.
func shifted(readings []Reading) []Reading {
	out := slices.Clone(readings)
	for i := range out {
		out[i].Left = Value{}
		if i+1 < len(out) {
			out[i].Left = readings[i+1].Left
		}
	}
	return out
}

// swapped reports whether clocks fit the times known otherwise only a ply earlier.
func (c Control) swapped(readings []Reading, waited []Value) bool {
	if len(readings) != len(waited) || len(readings) < 2*swapLeast {
		return false
	}
	as := c.misses(readings, readings, waited)
	if len(as) < swapLeast || median(as) < swapMisses {
		return false
	}
	if moved := c.misses(shifted(readings), readings, waited); len(moved) >= swapLeast {
		return median(moved) <= swapFits
	}
	return false
}

// misses returns by how much the clocks miss the times known otherwise.
func (c Control) misses(clocks, readings []Reading, waited []Value) []time.Duration {
	var out []time.Duration
	for i := len(clocks) - 1; i >= 2 && len(out) < swapMost; i-- {
		known := known(readings[i], waited, i)
		before, after := clocks[i-2].Left, clocks[i].Left
		if known.OK && before.OK && after.OK {
			spent := within(before.D) - within(after.D) + c.grants(i/2+1)
			out = append(out, (spent - within(known.D)).Abs())
		}
	}
	return out
}

// median returns the middle of durations, and sorts them.
func median(of []time.Duration) time.Duration {
	slices.Sort(of)
	return of[len(of)/2]
}
