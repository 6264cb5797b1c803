package relay

import (
	"time"

	"clocktell/relay/clock"
)

// Timing is how well it is known when the clock of the side on move began to run.
//
// A feed tells of a move some time after it was played, and that time changes: it is
// asked now and then, and has pauses of its own. When the next readings come they tell
// how long the moves took, so how late each receipt was against the others can be
// learnt (clock.Locate). The part of the delay that never changes cannot be learnt from a
// feed, and must not be: it shifts moves and clocks alike, and a clock goes with its
// position.
type Timing struct {
	Learnt bool
	Unsure time.Duration // Anchor is right to about so much, either way
	Late   time.Duration // the receipt of the last ply came so long after Anchor
	Error  clock.Value   // by how much the last reading showed the running clock before it to be wrong, at least
}

// sightingsLeast is how many plies it takes to learn from.
const sightingsLeast = 3

// step returns the resolution of the readings.
func (b *Board) step() time.Duration {
	if step := b.Control.Reads.Step; step > 0 {
		return step
	}
	return time.Second
}

// anchor works out when the side on move began to think, from what is known of earlier
// plies, or else from what the feed is usually late by.
func (next *Board) anchor(before *Board, late time.Duration) {
	next.Anchor = time.Time{}
	next.Timing = Timing{}
	n := len(next.Plies)
	if n == 0 {
		return
	}
	last := &next.Plies[n-1]
	next.Timing.Error = next.errorOf(before)
	next.Errors = before.errorsOf(next.Game).with(next.Timing.Error)
	next.Anchor = last.Seen
	if last.Within < unknownWithin && !last.ByHand && !next.Coarse() {
		next.Anchor = last.Seen.Add(-late)
	}
	if start, unsure, ok := next.learnt(); ok {
		next.Anchor, next.Timing.Learnt, next.Timing.Unsure = start, true, unsure
	}
	next.Timing.Late = last.Seen.Sub(next.Anchor)
}

// Unsure returns how exactly it is known, either way, when the clock of the side on move
// began to run.
func (b *Board) Unsure() time.Duration {
	switch n := len(b.Plies); {
	case n == 0:
		return 0
	case b.Timing.Learnt:
		return b.Timing.Unsure
	default:
		return b.Plies[n-1].Within
	}
}

// learnt returns when the side on move began to think, from the sightings of earlier
// plies or from a Clock tag.
func (next *Board) learnt() (start time.Time, unsure time.Duration, ok bool) {
	last := &next.Plies[len(next.Plies)-1]
	if last.ByHand || next.Coarse() {
		return start, 0, false
	}
	live := next.live.of == len(next.Plies)
	offset := clock.Locate(next.sightings())
	if offset.Sightings < sightingsLeast && !live {
		return start, 0, false
	}
	start, ok = offset.Start(0, 2*next.step(), last.Seen)
	return start, offset.Unsure, ok || live
}

// sightings lists what the receipts of plies tell, the newest first, as far back as
// the times spent are read. The game's own time is zero at the last ply.
func (next *Board) sightings() []clock.Sighting {
	var out []clock.Sighting
	cut := 2 * next.step() // of two sides
	if l := next.live; l.of == len(next.Plies) {
		out = append(out, clock.Sighting{At: l.at, Within: l.within, Game: l.spent, Cut: cut})
	}
	game := time.Duration(0)
	for i := len(next.Plies) - 1; i >= 0 && len(out) < sightingsMost; i-- {
		ply := &next.Plies[i]
		if !ply.ByHand && ply.Within < unknownWithin {
			out = append(out, clock.Sighting{At: ply.Seen, Within: ply.Within, Game: game, Cut: cut})
		}
		if q := ply.Timed.SpentQuality; q != clock.QualityRead && q != clock.QualityDerived || ply.Timed.Doubt != "" {
			break
		}
		game -= ply.Timed.Spent
	}
	return out
}

// sightingsMost is how many plies are learnt from.
const sightingsMost = 32

// errorOf returns by how much the newest reading shows the clock that ran before it to
// have been wrong: how far the moment at which that clock says the move was played, if
// it took as long as the reading tells, lies outside of what the receipt allows.
func (next *Board) errorOf(before *Board) clock.Value {
	n := len(next.Plies)
	ply := &next.Plies[n-1]
	if before.Game != next.Game || len(before.Plies) != n-1 || n < 2 || ply.ByHand ||
		ply.Timed.SpentQuality != clock.QualityRead || ply.Timed.Doubt != "" {
		return clock.Value{}
	}
	played := before.Anchor.Add(ply.Timed.Spent)
	late, early := played.Sub(ply.Seen), ply.Seen.Add(-ply.Within).Sub(played)
	return clock.Value{D: max(0, late-next.step(), early-next.step()), OK: true}
}
