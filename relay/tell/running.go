package tell

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
)

// Running returns what can be said of a side whose clock has run for elapsed on a
// move that is yet to come. It is provisional: the move, once made, is counted by
// its own time, which says less than a clock that is still running.
//
// So words move only when the move, played this very moment, would move them; the
// probability takes the running clock as it is. In the first seconds, for an only
// move and in time trouble it is the Call after the moves so far.
func (f Filter) Running(who clock.Side, elapsed time.Duration, reply Reply, legal int) Call {
	who &= 1
	next := Move{Ply: f.nextPly(who), Side: who, Reply: reply, Legal: legal, Spent: max(0, elapsed)}.sane(f.p)
	s := &f.sides[who]
	c := f.Call(who)
	c.Provisional, c.Elapsed, c.ElapsedLong = true, next.Spent, next.Spent > f.LongThinkAfter(who)
	c.Longest = s.timed > 0 && next.Spent >= s.longest
	if c.Verdict == NoClock || legal == 1 || f.inTrouble(s) {
		return c
	}
	e := f.emission(next)
	running := e.running(next.Spent)
	if running < f.p.runningFrom {
		return c
	}
	prior := f.p.predict(s.thinking, next.Ply, f.knowledge(s))
	least := clamp(min(running, e.evidence(next.Spent, f.p.resolution)), f.p.evidenceMost)
	c.Thinking = f.p.update(prior, running)
	if s.timed+1 >= f.p.thinkingLeast && f.p.entered(f.p.update(prior, least), max(0, s.gathered+least)) {
		c.turnNow(own(next.Ply))
	}
	c.Reasons = append([]string{runningReason(next.Spent, s.paces.median(kept, false), s.timed)}, c.Reasons...)
	return c
}

// nextPly returns the ply of a side's next move.
func (f *Filter) nextPly(who clock.Side) int {
	s, other := &f.sides[who], &f.sides[who.Other()]
	return max(s.ply+2, other.ply+1) - skew(s.ply, other.ply, who)
}

// skew takes a side's very first move back to where it belongs: ply 1 for White.
func skew(own, other int, who clock.Side) int {
	if own == 0 && other == 0 && who == clock.White {
		return 1
	}
	return 0
}

// knowledge returns the hazard's shift for a move nobody knows yet: as the last of
// either side stands to the reference.
func (f *Filter) knowledge(s *side) float64 {
	last := &f.sides[0]
	if f.sides[1].ply > last.ply {
		last = &f.sides[1]
	}
	known := last.last.move.Known
	if known == InReference || known == NoReference {
		return f.p.reference(known, 0)
	}
	return f.p.reference(Outside, s.outside+1)
}

// inTrouble reports whether times say nothing because the clock is too low.
func (f *Filter) inTrouble(s *side) bool {
	return s.left > 0 && s.left < troubleAt(f.of(s), 2)
}

// turnNow turns the verdict to Thinking on own move number move, still under way. It
// never turns back: a word that went with the first seconds of a move would tell nothing.
func (c *Call) turnNow(move int) {
	if c.Verdict == InPreparation {
		c.Turn = fmt.Sprintf("leaves preparation on move %d, over %s so far", move, span(stepped(c.Elapsed)))
	}
	if c.Verdict != Thinking {
		c.Returned = false
	}
	c.Verdict = Thinking
}
