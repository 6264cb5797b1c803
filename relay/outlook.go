package relay

import (
	"fmt"
	"strings"
	"time"

	"clocktell/relay/clock"
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

// Outlook says in lines what there is to say of the time a side has left: its budget,
// its pace, the control, and where its clock is going.
func (b *Board) Outlook(side clock.Side) []string {
	var out []string
	if evidence := b.Levels[side].Evidence; evidence != "" {
		out = strings.Split(evidence, "; ")
	}
	if a := b.Ahead[side]; a.Move > 0 {
		out = append(out, fmt.Sprintf("about %s after move %d at this pace (likely %s to %s)",
			clock.Format(a.Middle), a.Move, clock.Format(a.Low), clock.Format(a.High)))
	}
	return out
}
