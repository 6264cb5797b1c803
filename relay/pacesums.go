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

// roundPaces are told after a round number of moves of both sides.
func (b *Board) roundPaces(i int, add func(string, bool, func() prompt.Prompt)) {
	own := ownMove(i)
	if i%2 == 0 || own%5 != 0 || own < 10 {
		return
	}
	number, side := b.MoveNumber(i)
	slow, quick := side, side.Other()
	long, short := b.tookLately(i), b.tookLately(i-1)
	if short > long {
		slow, quick, long, short = quick, slow, short, long
	}
	add("five", own%10 == 0 && long >= fiveLeast && long >= scaled(short, fiveMore), func() prompt.Prompt {
		return prompt.FiveMoves(b.in, b.Called(slow), b.Called(quick), long, short)
	})
	left := [2]time.Duration{b.Plies[i-1].Timed.Left, b.Plies[i].Timed.Left}
	start := [2]time.Duration{b.Control.For(side.Other()).Start(), b.Control.For(side).Start()}
	above := min(left[0]-start[0], left[1]-start[1])
	single := len(b.Control.Periods) == 1
	add("above", single && own == 10 && above > 0 && !b.stood(AlertInPreparation), func() prompt.Prompt { return prompt.AboveStart(b.in, number, above) })
	add("level", own%10 == 0 && own >= 20 && (left[0]-left[1]).Abs() <= levelWithin, func() prompt.Prompt { return prompt.LevelClocks(b.in, number, (left[0] - left[1]).Abs()) })
	rich := 0
	if left[1] > left[0] {
		rich = 1
	}
	add("unspent", single && own%20 == 0 && left[rich] < start[rich] && left[rich] >= scaled(start[rich], unspentPart) && start[rich] >= belowStart, func() prompt.Prompt {
		return prompt.Unspent(b.in, b.Called([2]clock.Side{side.Other(), side}[rich]), number, left[rich], start[rich])
	})
	b.average(i, add)
	b.sumPaces(i, add)
}

// average compares what a move has taken each side, at moves 15, 25 and so on.
func (b *Board) average(i int, add func(string, bool, func() prompt.Prompt)) {
	own, side := ownMove(i), b.moverOf(i)
	mine, yours := &b.Plies[i].Timed, &b.Plies[i-1].Timed
	if own%10 != 5 || mine.Gaps || yours.Gaps {
		return
	}
	quick, slow := side, side.Other()
	short, long := mine.Used/time.Duration(own), yours.Used/time.Duration(own)
	if short > long {
		quick, slow, short, long = slow, quick, long, short
	}
	add("average", short >= time.Second && long >= scaled(short, averageMore), func() prompt.Prompt {
		return prompt.Average(b.in, b.Called(quick), b.Called(slow), short.Round(time.Second), long.Round(time.Second), own)
	})
}

// tookLately returns what the last five own moves up to the ply at an index took.
func (b *Board) tookLately(i int) time.Duration {
	sum := time.Duration(0)
	for j := i; j > i-2*fiveMoves && j >= 0; j -= 2 {
		sum += b.Plies[j].Timed.Spent
	}
	return sum
}
