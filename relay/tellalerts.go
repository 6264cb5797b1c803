package relay

import (
	"fmt"
	"slices"
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
		return b.alert(AlertLeftPreparation, side, 0, t, say), true
	case call.Returned && call.Since == i+1:
		return b.alert(AlertBackInPreparation, side, 0, t, prompt.BackInPreparation(b.in, b.Called(side), number, ply.filter.Call(side).Lately)), true
	case call.FirstLong == ownMove(i) && b.timedUpTo(i):
		return b.alert(AlertFirstThink, side, 0, t, prompt.FirstThink(b.in, b.Called(side), number, ply.Timed.Spent)), true
	}
	return Alert{}, false
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

// newsworthyMoves is how many own moves from preparation are worth saying when
// the opponent plays from preparation too.
const newsworthyMoves = 8

// preparedCondition is of level 1 while it is no more than true, and of level 2
// when it is worth saying: it has lasted, or the opponent is on their own.
func (b *Board) preparedCondition(filter tell.Filter, side clock.Side, t time.Time) Alert {
	call := b.Calls[side]
	var opponent string
	verdict, _ := filter.Standing(side.Other()) // by moves made, not by a clock that still runs
	justLeft := b.justLeft(side.Other())
	if verdict == tell.Thinking && !justLeft {
		opponent = b.Called(side.Other())
	}
	level, say := 2, prompt.InPreparation(b.in, b.Called(side), opponent, call.Timed, call.Gained)
	if opponent == "" && (call.Timed < newsworthyMoves || justLeft) {
		level, say.Priority = 1, prompt.Silent
	}
	alert := b.alert(AlertInPreparation, side, level, t, say)
	alert.ID = fmt.Sprintf("%s-%d", alert.ID, level)
	return alert
}

// justLeft reports whether it is still being said of a side that it left preparation:
// to say then how its opponent stands would be the same news in other words.
func (b *Board) justLeft(side clock.Side) bool {
	since := b.Calls[side].Since
	return since > len(b.Plies)-leftPreparationPlies && since > 0 && b.Plies[since-1].leaves
}

// gapConditions lists what there is to say of one clock against the other: a lead, and
// a clock that has caught up.
func (b *Board) gapConditions(filter tell.Filter, t time.Time) []Alert {
	if b.Last(clock.White).LeftQuality == clock.QualityNone || b.Last(clock.Black).LeftQuality == clock.QualityNone {
		return nil
	}
	if b.acrossControl(len(b.Plies)) {
		return nil
	}
	left := [2]time.Duration{b.Left(clock.White, t), b.Left(clock.Black, t)}
	if lead, ok := filter.Lead(left, b.stood(AlertClockLead)); ok {
		say := prompt.ClockLead(b.in, b.Called(lead.Side), leadOf(lead))
		return []Alert{b.alert(AlertClockLead, lead.Side, 0, t, say)} // so the other has not caught up
	}
	stood := b.stood(AlertCatchingUp)
	closing, ok := filter.Closing(left, stood)
	if !ok || b.acrossControl(closing.Ply) || !stood && b.Turn() != closing.Side {
		return nil // while the leader thinks, its think is what there is to say
	}
	number, _ := b.MoveNumber(closing.Ply - 1)
	say := prompt.CatchingUp(b.in, b.Called(closing.Side), number, closing.Most, closing.By)
	return []Alert{b.alert(AlertCatchingUp, closing.Side, 0, t, say)}
}

// acrossControl reports whether after n plies one side has made the control and the other
// has its move to it still to come: what the first was given for it is no lead.
func (b *Board) acrossControl(n int) bool {
	return n%2 == 1 && b.Control.MovesToControl(n/2) == 1
}

// stood reports whether an alert of a kind was raised before and not cleared.
func (b *Board) stood(kind AlertKind) bool {
	return slices.ContainsFunc(b.Alerts, func(a Alert) bool { return a.Kind == kind })
}
