package relay

import (
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
)

// What the clocks show over many moves. Judgement.
const (
	sumsOf      = 5                // moves that took longer than all before
	sumsLeast   = 20 * time.Second // a move of them
	regainedOf  = 10
	regained    = 20 * time.Second // on the clock in so many moves
	lastMinute  = time.Minute
	minuteMoves = 10
	bigThink    = 90 * time.Second // the longest of a side, to be recalled
	recallFrom  = 25               // own moves
	recallAfter = 8                // own moves since that think
)

// sumPaces are of many moves of a side, the last of them at an index: told at round numbers of moves, of those
// up to the moment.
func (b *Board) sumPaces(i, at int, add addPace) {
	side := b.moverOf(at)
	if ownMove(i)%5 == 0 {
		add("surge", side, false, func() (prompt.Prompt, bool) { return b.surge(b.lastOf(side)) })
	}
	if ownMove(i)%10 == 0 {
		add("regained", side, false, func() (prompt.Prompt, bool) { return b.gainedLately(b.lastOf(side)) })
	}
	if ownMove(i) == recallFrom {
		add("recall", side, false, func() (prompt.Prompt, bool) { return b.recall(b.lastOf(side)) })
	}
}

// surge: the last moves of a side, up to the ply at an index, took longer than all before.
func (b *Board) surge(i int) (prompt.Prompt, bool) {
	own, lately, timed := ownMove(i), b.tookLately(i), &b.Plies[i].Timed
	before := timed.Used - lately
	ok := own >= 3*sumsOf && !timed.Gaps && lately >= sumsOf*sumsLeast && lately > before && b.evenPlies(i, own) && !b.troubled()
	return prompt.Surge(b.in, b.Called(b.moverOf(i)), sumsOf, own-sumsOf, lately, before), ok
}

// gainedLately: with the last moves of a side, up to the ply at an index, its clock has gone up, and it has no
// more time than that matters.
func (b *Board) gainedLately(i int) (prompt.Prompt, bool) {
	side, own, from := b.moverOf(i), ownMove(i), i-2*regainedOf
	gained := b.Plies[i].Timed.Left - b.Plies[max(0, from)].Timed.Left
	same := b.Control.MovesToControl(own) == b.Control.MovesToControl(own-regainedOf)
	ok := from >= 0 && same && gained >= regained && b.evenPlies(i, regainedOf) && b.Plies[i].Timed.Left < belowLimit && !b.troubled()
	return prompt.Regained(b.in, b.Called(side), regainedOf, gained), ok
}

// recall tells again which move took a side longest, long after it, if it was not told then.
func (b *Board) recall(i int) (prompt.Prompt, bool) {
	best := i
	for j := i; j >= 0; j -= 2 {
		if b.Plies[j].Timed.SpentQuality == clock.QualityNone {
			return prompt.Prompt{}, false
		}
		if b.Plies[j].Timed.Spent > b.Plies[best].Timed.Spent {
			best = j
		}
	}
	number, _ := b.MoveNumber(best)
	spent := b.Plies[best].Timed.Spent
	return prompt.Recall(b.in, b.Called(b.moverOf(i)), number, spent), i-best >= 2*recallAfter && spent >= bigThink && !b.isLong(best, thinkMissed)
}

// minutes returns how many moves in a row, up to the ply at an index, a side has made with less than a minute.
func (b *Board) minutes(i int) int {
	n := 0
	for j := i; j >= 0 && b.Plies[j].Timed.LeftQuality != clock.QualityNone && b.Plies[j].Timed.Left < lastMinute; j -= 2 {
		n++
	}
	return n
}

// tookLately returns what the last five own moves up to the ply at an index took.
func (b *Board) tookLately(i int) time.Duration {
	sum := time.Duration(0)
	for j := i; j > i-2*fiveMoves && j >= 0; j -= 2 {
		sum += b.Plies[j].Timed.Spent
	}
	return sum
}
