package tell

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
)

// gap is the largest lead that a side has had on the clock.
type gap struct {
	side clock.Side
	most time.Duration // 0: nobody has led yet
	ply  int
}

// noteGap keeps the largest lead, after a move. The other side's lead takes its place
// once that is worth a word, or while none was.
func (f *Filter) noteGap() {
	white, black := &f.sides[clock.White], &f.sides[clock.Black]
	if white.left == 0 || black.left == 0 || !f.of(white).Known() {
		return
	}
	if f.controls[clock.White].Start() != f.controls[clock.Black].Start() {
		return // nobody catches up with a gap that was agreed on
	}
	if n := max(white.ply, black.ply); n%2 == 1 && f.of(white).MovesToControl(n/2) == 1 {
		return // one side was given time for the control, the other has its move to it to come
	}
	now := gap{clock.White, white.left - black.left, max(white.ply, black.ply)}
	if now.most < 0 {
		now.side, now.most = clock.Black, -now.most
	}
	worth := f.leadWorth()
	if now.side == f.gap.side && now.most > f.gap.most || now.side != f.gap.side && (now.most >= worth || f.gap.most < worth) {
		f.gap = now
	}
}

// Closing is a clock that catches up.
type Closing struct {
	Side   clock.Side    // who catches up
	Most   time.Duration // by which it was behind at the most
	Ply    int           // after which that was
	By     time.Duration // by which it still is; negative when it is ahead
	Reason string
}

// Closing returns the side whose clock has caught up by half or more of the largest
// lead that the other had since time was last added to a clock, if that lead was worth a
// word (see Lead) and the two started alike. What stood before
// stands until the lead is 25 % above the half. It ends for good when the side that
// caught up has a lead worth a word itself. Judgement.
func (f Filter) Closing(left [2]time.Duration, stood bool) (Closing, bool) {
	if f.gap.most == 0 || f.gap.most < f.leadWorth() {
		return Closing{}, false
	}
	behind := f.gap.side.Other()
	c := Closing{Side: behind, Most: f.gap.most, Ply: f.gap.ply, By: left[f.gap.side] - left[behind]}
	limit := part(c.Most, closedPart)
	if stood {
		limit = part(limit, troubleClear)
	}
	if c.By > limit {
		return Closing{}, false
	}
	c.Reason = c.words()
	return c, true
}

// words returns the closing in words.
func (c Closing) words() string {
	was := fmt.Sprintf("%s behind after move %d", clock.Format(c.Most), own(c.Ply))
	switch {
	case c.By < 0:
		return fmt.Sprintf("%s has caught up on the clock: %s, %s ahead now", c.Side, was, clock.Format(-c.By))
	case c.By == 0:
		return fmt.Sprintf("%s has caught up on the clock: %s, level now", c.Side, was)
	}
	return fmt.Sprintf("%s is catching up on the clock: %s, %s now", c.Side, was, clock.Format(c.By))
}
