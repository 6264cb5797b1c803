package relay

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
)

// What the clocks show when little else happens: each is an event of one ply, told as soon as nothing else
// is and within paceLife. All numbers are judgement.
const (
	paceLife   = 6 // plies
	quietPlies = 2 // for which nothing else may have been raised

	streakQuick, quickMost = 5, 4 * time.Second
	streakSlow, slowLeast  = 3, 40 * time.Second
	streakFrom             = 12 // own moves

	belowLimit, belowStart = 5 * time.Minute, 10 * time.Minute
	belowMore              = 2 * time.Minute // that the other has

	longestLeast = 40 * time.Second
	longestMore  = 1.3
	longestFrom  = 10 // own moves

	answerMost, answerAfter = 3 * time.Second, 45 * time.Second
	answerFrom              = 8

	fiveMoves, fiveLeast, fiveMore = 5, time.Minute, 2.5

	averageMore = 1.3
	levelWithin = 5 * time.Second
	unspentPart = .8
	halfAgain   = 10 // plies after a lead was told, more of it is news
	anewLeast   = 15 * time.Second
	aheadFrom   = 15 // own moves
)

// pace is an event of the clocks.
type pace struct {
	what string
	side clock.Side
	say  prompt.Prompt
}

// paceConditions lists the events that stand, and the next one if there is room for it, that is silence.
func (b *Board) paceConditions(t time.Time, room bool) []Alert {
	if b.Plies == nil || !b.Control.Known() || b.hosts(clock.White) || b.hosts(clock.Black) {
		return nil
	}
	var out []Alert
	n := len(b.Plies)
	for i := n - 1; i >= max(0, n-paceLife); i-- {
		for _, event := range b.pacesAt(i) {
			a := b.alert(AlertPace, event.side, 0, t, event.say)
			a.ID, a.Ply = fmt.Sprintf("%s-%s-%d", a.ID, event.what, i+1), n
			if stands := hasAlert(b.Alerts, a.ID); stands || room {
				room = room && stands
				out = append(out, a)
			}
		}
	}
	return out
}

// quietBefore reports that of what stands nothing worth a word was raised within the last plies, nor is
// anything now.
func (b *Board) quietBefore(now []Alert) bool {
	for i := range b.Alerts {
		if a := &b.Alerts[i]; a.Say.Priority != prompt.Silent && a.Ply > len(b.Plies)-quietPlies {
			return false
		}
	}
	for i := range now {
		if now[i].Say.Priority != prompt.Silent && !hasAlert(b.Alerts, now[i].ID) {
			return false
		}
	}
	return true
}

// pacesAt returns the events of the ply at an index, the most telling first.
func (b *Board) pacesAt(i int) []pace {
	ply := &b.Plies[i]
	if i < 2 || ply.Within == unknownWithin || ply.Timed.LeftQuality != clock.QualityRead || ply.Timed.SpentQuality == clock.QualityNone {
		return nil
	}
	if b.Plies[i-1].Timed.LeftQuality != clock.QualityRead || b.Plies[i-1].Timed.SpentQuality == clock.QualityNone {
		return nil
	}
	var out []pace
	side := b.moverOf(i)
	add := func(what string, ok bool, say func() prompt.Prompt) {
		if ok {
			out = append(out, pace{what, side, say()})
		}
	}
	b.thinkPaces(i, add)
	b.stockPaces(i, add)
	b.minutePaces(i, add)
	b.roundPaces(i, add)
	return out
}

// thinkPaces are of what moves took.
func (b *Board) thinkPaces(i int, add func(string, bool, func() prompt.Prompt)) {
	side, spent := b.moverOf(i), b.Plies[i].Timed.Spent
	name, other := b.Called(side), b.Called(side.Other())
	number, _ := b.MoveNumber(i)
	before := b.Plies[i-1].Timed.Spent
	add("answer", ownMove(i) >= answerFrom && spent <= answerMost && before >= answerAfter && !b.retakes(i), func() prompt.Prompt {
		return prompt.AtOnce(b.in, name, other, before)
	})
	add("longest", b.isLongest(i), func() prompt.Prompt { return prompt.Longest(b.in, name, number, spent) })
	most, ok := b.streak(i, streakQuick, func(d time.Duration) bool { return d <= quickMost })
	add("quick", ok && ownMove(i) >= streakFrom && b.Levels[side].Level == 0, func() prompt.Prompt {
		return prompt.QuickMoves(b.in, name, streakQuick, most[1])
	})
	least, ok := b.streak(i, streakSlow, func(d time.Duration) bool { return d >= slowLeast })
	add("slow", ok, func() prompt.Prompt { return prompt.SlowMoves(b.in, name, streakSlow, least[0]) })
}

// retakes reports whether the ply at an index captures where the one before it did, or answers a check.
func (b *Board) retakes(i int) bool {
	before := b.Place(i)
	return bitMove(b.Plies[i].Move).To() == bitMove(b.Plies[i-1].Move).To() || before.InCheck()
}

// isLongest reports whether no move took nearly as long as the ply at an index, of which nothing was said
// while it lasted.
func (b *Board) isLongest(i int) bool {
	spent := b.Plies[i].Timed.Spent
	if ownMove(i) < longestFrom || spent < longestLeast || b.isLong(i, thinkMissed) {
		return false
	}
	for j := range i {
		if b.Plies[j].Timed.SpentQuality == clock.QualityNone || scaled(b.Plies[j].Timed.Spent, longestMore) > spent {
			return false
		}
	}
	return true
}

// streak reports whether the last n own moves up to the ply at an index are such, and the one before them is not;
// and the least and most that one of them took.
func (b *Board) streak(i, n int, such func(time.Duration) bool) (bounds [2]time.Duration, ok bool) {
	first := i - 2*n
	if first < 0 || such(b.Plies[first].Timed.Spent) {
		return bounds, false
	}
	bounds[0] = b.Plies[i].Timed.Spent
	for j := i; j > first; j -= 2 {
		d := b.Plies[j].Timed.Spent
		if b.Plies[j].Timed.SpentQuality == clock.QualityNone || !such(d) {
			return bounds, false
		}
		bounds = [2]time.Duration{min(bounds[0], d), max(bounds[1], d)}
	}
	return bounds, true
}

// stockPaces are of what the clocks have left.
func (b *Board) stockPaces(i int, add func(string, bool, func() prompt.Prompt)) {
	side := b.moverOf(i)
	name, other := b.Called(side), b.Called(side.Other())
	left, was, theirs := b.Plies[i].Timed.Left, b.timedBefore(i).Left, b.Plies[i-1].Timed.Left
	start := b.Control.For(side).Start()
	number, _ := b.MoveNumber(i)
	single := len(b.Control.Periods) == 1
	crossed := start >= belowStart && left < belowLimit && was >= belowLimit
	add("below", crossed && theirs >= belowLimit+belowMore, func() prompt.Prompt { return prompt.Below(b.in, name, other, belowLimit, theirs) })
	add("bothbelow", crossed && theirs < belowLimit, func() prompt.Prompt { return prompt.BothBelow(b.in, belowLimit) })
	add("half", single && start/2 > belowLimit && left <= start/2 && was > start/2, func() prompt.Prompt { return prompt.HalfTime(b.in, name, number, left) })
	under := 2*left < theirs && 2*was >= theirs && theirs >= time.Minute
	add("underhalf", under && !b.leadToldSince(len(b.Plies)-halfAgain), func() prompt.Prompt { return prompt.UnderHalf(b.in, name, other, left, theirs) })
	add("ahead", b.aheadAnew(i), func() prompt.Prompt { return prompt.AheadNow(b.in, name, other, left-theirs) })
}

// leadToldSince reports whether a lead on the clock has been told that stands, at a ply or later.
func (b *Board) leadToldSince(ply int) bool {
	for i := range b.Alerts {
		if a := &b.Alerts[i]; a.Kind == AlertClockLead && a.Ply >= ply {
			return true
		}
	}
	return false
}

// aheadAnew reports whether with the ply at an index the mover has more time than the other, and had less
// after each of the moves before, back to the opening.
func (b *Board) aheadAnew(i int) bool {
	if ownMove(i) < aheadFrom || b.Plies[i].Timed.Left < b.Plies[i-1].Timed.Left+anewLeast || b.stood(AlertCatchingUp) {
		return false
	}
	for j := i - 2; ownMove(j) >= aheadFrom/2; j -= 2 {
		if b.Plies[j].Timed.Left >= b.Plies[j-1].Timed.Left {
			return false
		}
	}
	return true
}
