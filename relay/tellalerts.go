package relay

import (
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
	"clocktell/relay/tell"
)

// tellConditions lists what the tell of a side is worth saying.
func (b *Board) tellConditions(filter tell.Filter, side clock.Side, t time.Time) []Alert {
	var out []Alert
	call := b.Calls[side]
	if call.Verdict == tell.InPreparation {
		out = append(out, b.preparedCondition(filter, side, t))
	}
	if call.FastUnknown && b.quickIsNews(side) {
		out = append(out, b.alert(AlertQuickUnknown, side, 0, t, prompt.QuickUnknown(b.in, b.Called(side), call.LastSpent)))
	}
	for i := max(0, len(b.Plies)-leftPreparationPlies); i < len(b.Plies); i++ {
		if b.moverOf(i) != side || b.Plies[i].Within == unknownWithin {
			continue // what happened before anybody listened is no news
		}
		if alert, ok := b.turnAlert(i, side, t); ok {
			out = append(out, b.alertAt(i, alert))
		}
	}
	return out
}

// backMost is the last move at which anybody would say that a side knows the moves again:
// later, quick moves come from an easy ending. Judgement.
const backMost = 30

// turnAlert returns what a ply changed in the tell of its mover: it left preparation,
// went back to it, or had its first long think.
func (b *Board) turnAlert(i int, side clock.Side, t time.Time) (Alert, bool) {
	ply, call := &b.Plies[i], &b.Calls[side]
	number, _ := b.MoveNumber(i)
	switch {
	case ply.leaves:
		then := ply.filter.Call(side)
		say := prompt.LeftPreparation(b.in, b.Called(side), number, ply.Timed.Spent, then.Lately, then.Longest)
		say.Evidence += b.Habits[side].preparation(b.in)
		if !b.leavingShows(i, then.Longest) {
			say.Priority = prompt.Silent
		}
		return b.alert(AlertLeftPreparation, side, 0, t, say), true
	case call.Returned && call.Since == i+1:
		say := prompt.BackInPreparation(b.in, b.Called(side), number, ply.filter.Call(side).Lately)
		if !b.backIsNews(side, number) {
			say.Priority = prompt.Silent
		}
		return b.alert(AlertBackInPreparation, side, 0, t, say), true
	case call.FirstLong == ownMove(i) && b.timedUpTo(i):
		say := prompt.FirstThink(b.in, b.Called(side), number, ply.Timed.Spent)
		if !b.firstThinkIsNews(i) {
			say.Priority = prompt.Silent
		}
		return b.alert(AlertFirstThink, side, 0, t, say), true
	}
	return Alert{}, false
}

// backIsNews reports whether it is worth a word that a side knows the moves again.
func (b *Board) backIsNews(side clock.Side, move int) bool {
	return move <= backMost && !b.hosts(side)
}

// timedUpTo reports whether the time of every move of the mover up to the ply at index i
// is known: else an earlier think may have been longer. Its first move need not be.
func (b *Board) timedUpTo(i int) bool {
	for ; i > 1; i -= 2 {
		if b.Plies[i].Timed.SpentQuality == clock.QualityNone {
			return false
		}
	}
	return true
}

// quickUnknownPlies is how far behind the new position a quick move may still come from
// preparation. Judgement.
const quickUnknownPlies = 10

// quickIsNews reports whether a quick move outside the reference is worth a word: near
// the new position, by a side that has time to think and was heard to move.
func (b *Board) quickIsNews(side clock.Side) bool {
	i := b.indexOf(side, b.OwnMoves(side))
	return i >= 0 && b.Plies[i].Within != unknownWithin && i-b.Novelty() <= quickUnknownPlies && b.Levels[side].Level == 0
}
