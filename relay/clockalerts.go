package relay

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
	"clocktell/relay/tell"
)

// clockConditions lists what the clock of a side is worth saying.
func (b *Board) clockConditions(filter tell.Filter, side clock.Side, t time.Time) []Alert {
	var out []Alert
	if alert, ok := b.longThinkCondition(filter, side, t); ok {
		out = append(out, alert)
	}
	out = append(out, b.troubleConditions(side, t)...)
	return append(out, b.doubtCondition(side, t)...)
}

const (
	// controlNear is how many moves to the control are worth a word, for a side that is
	// short of time for them.
	controlNear = 15
	// flagSoon is the clock above which nobody would say that a flag is about to fall,
	// whatever a move costs the side: with ten seconds left most still move in time, and
	// often at once. Judgement.
	flagSoon = 7 * time.Second
	// flagAfter is how long that a side is down to its last seconds has the floor before
	// its flag is about to fall: ten seconds, but for that in which they were noticed.
	// Judgement.
	flagAfter = 9 * time.Second
	// spendsMore is how many times its budget for a move a side's usual think must be for
	// the two to show that it spends too much. Judgement.
	spendsMore = 1.4
)

// troubleConditions lists what a side's time trouble is worth saying.
func (b *Board) troubleConditions(side clock.Side, t time.Time) []Alert {
	trouble, name := b.Levels[side], b.Called(side)
	var out []Alert
	if trouble.Level > 0 {
		out = append(out, b.levelAlert(side, trouble, t))
	}
	if trouble.OnIncrement {
		delay := b.Control.For(side).Increment(b.OwnMoves(side)+1) == 0
		out = append(out, b.alert(AlertOnIncrement, side, 0, t, prompt.OnIncrement(b.in, name, delay, budgetOf(trouble))))
	}
	if limit := flagLimit(trouble); trouble.FlagNear && b.Turn() == side && !b.Coarse() && b.Left(side, t) < limit {
		say := prompt.FlagNear(b.in, name, limit)
		if was, ok := b.saying(AlertTimeTrouble, side); ok && was.Level == 3 && t.Sub(was.At) < flagAfter {
			say.Priority = prompt.Silent // that it is down to its last seconds has hardly been said
		}
		out = append(out, b.alert(AlertFlagNear, side, 0, t, say))
	}
	if controlIsNear(trouble) {
		number, _ := b.MoveNumber(b.indexOf(side, b.OwnMoves(side)+trouble.ToControl))
		out = append(out, b.alert(AlertToControl, side, 0, t, prompt.ToControl(b.in, name, number, budgetOf(trouble))))
	}
	return out
}

// OwnMoves returns how many own moves a side has made.
func (b *Board) OwnMoves(side clock.Side) int { return (len(b.Plies) + 1 - b.second(side)) / 2 }

// indexOf returns the index of the ply with which a side makes an own move, from 1.
func (b *Board) indexOf(side clock.Side, own int) int { return 2*(own-1) + b.second(side) }

// second returns 1 for the side that does not begin, else 0.
func (b *Board) second(side clock.Side) int {
	if b.moverOf(0) == side {
		return 0
	}
	return 1
}

func controlIsNear(trouble tell.Trouble) bool {
	return trouble.Level > 0 && trouble.ToControl > 0 && trouble.ToControl <= controlNear
}

// flagLimit returns the clock below which a flag that is near is about to fall. Below
// level 3 by half at least, so that one is not said on the heels of the other.
func flagLimit(trouble tell.Trouble) time.Duration {
	return min(trouble.FlagAt, flagSoon, trouble.Limit/2)
}

// levelAlert is silent where there is no news in it: after a worse level, and where what
// makes the level is said on its own.
func (b *Board) levelAlert(side clock.Side, trouble tell.Trouble, t time.Time) Alert {
	say := prompt.TimeTrouble(b.in, b.Called(side), trouble.Level, trouble.Limit, budgetOf(trouble))
	if trouble.Level == 3 && b.Left(side, t) >= trouble.Limit {
		say.Priority = prompt.Silent // it plays on the increment
	}
	if trouble.Level == 1 && controlIsNear(trouble) {
		say.Priority = prompt.Silent // the control is what it is short of time for
	}
	for _, was := range b.Alerts {
		if was.Kind == AlertTimeTrouble && was.Side == side.String() && was.Level > trouble.Level {
			say.Priority = prompt.Silent // relief is no news
		}
	}
	quiet := ""
	if trouble.Level == 1 && !b.spendsTooMuch(side, trouble) {
		say.Priority, quiet = prompt.Silent, "-forecast" // the figures do not show it, or not yet
	}
	alert := b.alert(AlertTimeTrouble, side, trouble.Level, t, say)
	alert.ID = fmt.Sprintf("%s-%d%s", alert.ID, trouble.Level, quiet)
	return alert
}

// spendsTooMuch reports whether a side's usual think is more than its clock has for each
// move, so that anybody sees it who is shown the two. It is not said of a clock to which
// time was added: that may come again.
func (b *Board) spendsTooMuch(side clock.Side, trouble tell.Trouble) bool {
	if was, ok := b.saying(AlertTimeTrouble, side); ok && was.Level == 1 {
		return true // what was said stands as long as the level does
	}
	if b.Last(side).Left > b.Last(side.Other()).Left {
		return false // the other has more to worry about
	}
	return trouble.Usual >= scaled(trouble.Budget, spendsMore) && !b.risen(side, 0, len(b.Plies))
}
