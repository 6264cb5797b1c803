package relay

import (
	"time"

	"clocktell/relay/tell"
)

// Ahead is where a side's clock is going at its own pace.
type Ahead struct {
	Move              int // own move it is about, 0: nothing can be said
	Middle, Low, High time.Duration
}

// What is projected: the control if it is near enough, or else the next round move that
// is not too near.
const (
	aheadStep  = 10 // own moves
	aheadLeast = 5
)

func aheadOf(p tell.Projection) Ahead {
	move := (p.Made + aheadLeast + aheadStep - 1) / aheadStep * aheadStep
	if p.To > 0 {
		move = min(move, p.To)
	}
	middle, low, high, ok := p.At(move)
	if !ok {
		return Ahead{}
	}
	return Ahead{Move: move, Middle: middle, Low: low, High: high}
}
