package relay

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
	"clocktell/relay/tell"
)

const (
	// thinkShare is the part of its clock at the start of the turn that a side must have
	// spent for its think to be long: on what is left depends what a minute is worth.
	// Judgement, by what readers of whole games found worth saying.
	thinkShare = .08
	// thinkAgain is within how many own moves a long think is only news again if it is so
	// much longer than the one before. Judgement.
	thinkAgain, thinkLonger = 3, 1.5
	// With more than thinkEase on its clock nobody takes less than thinkLeast, or than thinkBudgets
	// budgets for a move, for a long think. Judgement, by the same readers.
	thinkEase    = 5 * time.Minute
	thinkLeast   = 45 * time.Second
	thinkBudgets = 2
	// thinkPlain is how long a think is plain to all, if one before it keeps it from being news sooner.
	thinkPlain = 3 * time.Minute
	// In games that begin with longGameFrom or more a first long think lasts firstLeast at least.
	longGameFrom = 10 * time.Minute
	firstLeast   = time.Minute
	// thinkMissed is by how much a think may be shorter on the clock than it was when it
	// was called long.
	thinkMissed = 3 * time.Second
)

// thinkLimit returns the time on the ply at index i, which may be the one to come, above
// which that is a long think worth a word.
func (b *Board) thinkLimit(i int) time.Duration {
	filter := b.filterBefore(i)
	limit := filter.LongThinkAfter(b.moverOf(i))
	if before := b.timedBefore(i); limit > 0 && before.LeftQuality != clock.QualityNone {
		limit = max(limit, scaled(before.Left, thinkShare))
		if before.Left > thinkEase {
			limit = max(limit, thinkLeast)
		}
	}
	return limit
}

// livesUpTo returns the time on the move to come that is no long think for a side with time in hand: some
// of its budgets for a move.
func (b *Board) livesUpTo(side clock.Side) time.Duration {
	if b.Last(side).Left <= thinkEase {
		return 0
	}
	return thinkBudgets * b.Levels[side].Budget
}

// longAgain returns the time above which a think on the ply at index i is news although
// there was one on one of the last own moves, 0 if there was none.
func (b *Board) longAgain(i int) time.Duration {
	again := time.Duration(0)
	for j := i - 2; j >= max(0, i-2*thinkAgain); j -= 2 {
		if spent := b.Plies[j].Timed.Spent; b.isLong(j, 0) {
			again = max(again, scaled(spent, thinkLonger))
		}
	}
	return again
}

// isLong reports whether a ply was a long think, or short of one by no more than missed.
func (b *Board) isLong(i int, missed time.Duration) bool {
	timed, limit := &b.Plies[i].Timed, b.thinkLimit(i)
	return timed.SpentQuality != clock.QualityNone && limit > 0 && timed.Spent+missed > limit
}

// longThinkCondition holds while the side on move is in a long think.
func (b *Board) longThinkCondition(filter tell.Filter, side clock.Side, t time.Time) (Alert, bool) {
	i := len(b.Plies)
	turn, running := b.Running()
	elapsed := b.Elapsed(t)
	if !running || turn != side || elapsed <= filter.LongThinkAfter(side) {
		return Alert{}, false
	}
	limit := b.thinkLimit(i)
	limit = max(limit, b.livesUpTo(side))
	again := b.longAgain(i)
	if limit <= 0 || elapsed <= max(limit, again) {
		return Alert{}, false
	}
	number, _ := b.MoveNumber(i)
	say := prompt.LongThink(b.in, b.Called(side), number, max(limit, again), b.Levels[side].Usual)
	was, said := b.saying(AlertTimeTrouble, side)
	switch {
	case b.Levels[side].Level == 3:
		say.Priority = prompt.Silent // it has no time for one: that is what there is to say
	case again > max(limit, thinkPlain):
		say.Priority = prompt.Silent // by now everybody has seen it
	case said && was.Ply == i && was.At.After(b.Anchor), b.hosts(side):
		say.Priority = prompt.Silent // that is what this think has come to; it may be thinking elsewhere
	}
	alert := b.alert(AlertLongThink, side, 0, t, say)
	alert.ID, alert.Ply = fmt.Sprintf("%s-%d", alert.ID, i+1), i+1
	return alert, true
}

// firstThinkIsNews reports whether a first long think, with the ply at index i, is worth
// a word: none was said before, and of this one nothing.
func (b *Board) firstThinkIsNews(i int) bool {
	if b.Control.For(b.moverOf(i)).Start() >= longGameFrom && b.Plies[i].Timed.Spent < firstLeast {
		return false
	}
	if i >= 2 && b.rise(i-2) >= startFar {
		return false // a reading that was too high would make it long
	}
	for j := i - 2; j >= 0; j -= 2 {
		if b.isLong(j, thinkMissed) {
			return false
		}
	}
	said, live := b.saying(AlertLongThink, b.moverOf(i))
	if live && said.Ply == i+1 {
		return false
	}
	return b.isLong(i, 0) && !b.hosts(b.moverOf(i))
}

// scaled returns d times a factor.
func scaled(d time.Duration, by float64) time.Duration { return time.Duration(float64(d) * by) }
