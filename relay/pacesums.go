package relay

import (
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
)

// What the clocks show over many moves. Judgement.
const (
	sumsOf      = 5 // moves that took longer than all before
	regainedOf  = 10
	regained    = 20 * time.Second // on the clock in so many moves
	lastMinute  = time.Minute
	minuteMoves = 10
	bigThink    = 90 * time.Second // the longest of a side, to be recalled
	recallFrom  = 25               // own moves
	recallAfter = 8                // own moves since that think
)

// sumPaces are told at round numbers of moves, of the side that has just moved and of the other.
func (b *Board) sumPaces(i int, add func(string, bool, func() prompt.Prompt)) {
	own := ownMove(i)
	for _, at := range []int{i - 1, i} {
		side := b.moverOf(at)
		name, lately := b.Called(side), b.tookLately(at)
		timed := &b.Plies[at].Timed
		before := timed.Used - lately
		add("surge"+side.String(), own >= 3*sumsOf && !timed.Gaps && lately >= fiveLeast && lately > before, func() prompt.Prompt {
			return prompt.Surge(b.in, name, sumsOf, own-sumsOf, lately, before)
		})
		from := at - 2*regainedOf
		gained := timed.Left - b.Plies[max(0, from)].Timed.Left
		even := from >= 0 && own > 2*regainedOf && own%10 == 0 && !b.risen(side, from, at+1) && b.Control.MovesToControl(own) == b.Control.MovesToControl(own-regainedOf)
		add("regained"+side.String(), even && gained >= regained, func() prompt.Prompt { return prompt.Regained(b.in, name, regainedOf, gained) })
		b.recall(at, add)
	}
}

// recall tells again which move took a side longest, long after it.
func (b *Board) recall(i int, add func(string, bool, func() prompt.Prompt)) {
	side, best := b.moverOf(i), i
	for j := i; j >= 0; j -= 2 {
		if b.Plies[j].Timed.SpentQuality == clock.QualityNone {
			return
		}
		if b.Plies[j].Timed.Spent > b.Plies[best].Timed.Spent {
			best = j
		}
	}
	number, _ := b.MoveNumber(best)
	spent := b.Plies[best].Timed.Spent
	add("recall"+side.String(), ownMove(i) == recallFrom && i-best >= 2*recallAfter && spent >= bigThink, func() prompt.Prompt {
		return prompt.Recall(b.in, b.Called(side), number, spent)
	})
}

// minutePaces are of a side that goes on with less than a minute.
func (b *Board) minutePaces(i int, add func(string, bool, func() prompt.Prompt)) {
	n := 0
	for j := i; j >= 0; j -= 2 {
		if b.Plies[j].Timed.LeftQuality == clock.QualityNone || b.Plies[j].Timed.Left >= lastMinute {
			break
		}
		n++
	}
	add("minute", n > 0 && n%minuteMoves == 0, func() prompt.Prompt { return prompt.MinuteMoves(b.in, b.Called(b.moverOf(i)), n) })
}
