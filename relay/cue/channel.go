package cue

import (
	"time"

	"clocktell/relay"
)

// Channel is how one group of scenes was held back: every hold that was set, in order; the
// empty one is not held back. Until the first is set its scenes show nothing; what happened
// then is placed as if it had been held back by the first from the beginning.
type Channel []relay.Hold

// Aired returns when the channel first showed what happened at a moment of the show, to
// the nanosecond above. The channel's place in the show is the time less how far it is
// behind, as relay.Hold.Behind has it; a hold that becomes longer lets it stand still until
// the past has caught up, so that a moment is reached when the first of these places has it.
func (c Channel) Aired(moment time.Time) time.Time {
	for i, h := range c {
		at := moment.Add(h.For)
		if gap := h.From - h.For; gap > 0 {
			at = catchUp(h, moment, at)
		}
		if i > 0 && at.Before(h.Since) {
			at = h.Since
		}
		if i == len(c)-1 || at.Before(c[i+1].Since) {
			return at
		}
	}
	return moment
}

// catchUp returns when a channel that goes fast through its past reaches a moment; at is
// when it would if it had caught up already.
func catchUp(h relay.Hold, moment, at time.Time) time.Time {
	if !at.Before(h.Since.Add(relay.HoldCatchUp)) {
		return at
	}
	behind := moment.Add(h.From).Sub(h.Since) // to go, at the pace of the show
	whole := relay.HoldCatchUp + h.From - h.For
	n, rest := mulDiv(int64(max(0, behind)), int64(relay.HoldCatchUp), int64(whole))
	if rest > 0 {
		n++
	}
	return h.Since.Add(time.Duration(n))
}
