package relay

import (
	"slices"
	"time"

	"clocktell/relay/clock"
)

// errorsKept is how many errors of a board's running clock a median is taken of.
const errorsKept = 32

// Errors is by how much the running clocks of a board's game were wrong, see
// Timing.Error. The zero value has none.
type Errors struct {
	Count  int // all of the game
	recent []time.Duration
}

// Last returns the newest error; 0 without any.
func (e Errors) Last() time.Duration {
	if len(e.recent) == 0 {
		return 0
	}
	return e.recent[len(e.recent)-1]
}

// Median returns the middle of the newest errors; 0 without any.
func (e Errors) Median() time.Duration {
	if len(e.recent) == 0 {
		return 0
	}
	return slices.Sorted(slices.Values(e.recent))[len(e.recent)/2]
}

// with returns e with another error behind it, if there is one.
func (e Errors) with(v clock.Value) Errors {
	if !v.OK {
		return e
	}
	kept := e.recent[max(0, len(e.recent)-errorsKept+1):]
	return Errors{Count: e.Count + 1, recent: append(slices.Clip(kept), v.D)}
}

// errorsOf returns what is known of a game; of another than the one shown, nothing.
func (b *Board) errorsOf(game int) Errors {
	if b.Game != game {
		return Errors{}
	}
	return b.Errors
}
