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
	turn, running := b.Running()
	elapsed := b.Elapsed(t)
	if limit := filter.LongThinkAfter(side); running && turn == side && limit > 0 && elapsed > limit {
		number, _ := b.MoveNumber(len(b.Plies))
		say := prompt.LongThink(b.in, b.Called(side), number, limit, b.Levels[side].Usual)
		if b.Levels[side].Level == 3 {
			say.Priority = prompt.Silent // it has no time for one: that is what there is to say
		}
		alert := b.alert(AlertLongThink, side, 0, t, say)
		alert.ID, alert.Ply = fmt.Sprintf("%s-%d", alert.ID, len(b.Plies)+1), len(b.Plies)+1
		out = append(out, alert)
	}
	out = append(out, b.troubleConditions(side, t)...)
	return append(out, b.doubtCondition(side, t)...)
}

// consistentReadings is how many readings of a side without a contradiction make its
// clock believed again.
const consistentReadings = 2

// doubtCondition holds while one of a side's last readings contradicts the others.
func (b *Board) doubtCondition(side clock.Side, t time.Time) []Alert {
	seen := 0
	for i := len(b.Plies) - 1; i >= 0 && seen < consistentReadings; i-- {
		ply := &b.Plies[i]
		if b.moverOf(i) != side || ply.Reading == (clock.Reading{}) {
			continue
		}
		if seen++; ply.Timed.Doubt == "" {
			continue
		}
		alert := b.alert(AlertClockDoubtful, side, 0, t, prompt.ClockDoubtful(b.in, b.Called(side), b.moveText(i), ply.Timed.Doubt))
		alert.Ply = i + 1
		return []Alert{alert}
	}
	return nil
}

const (
	// controlNear is how many moves to the control are worth a word, for a side that is
	// short of time for them.
	controlNear = 15
	// flagSoon is the clock above which nobody would say that a flag is about to fall,
	// whatever a move costs the side. Judgement.
	flagSoon = 15 * time.Second
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
		out = append(out, b.alert(AlertFlagNear, side, 0, t, prompt.FlagNear(b.in, name, limit)))
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
// level 3 by a third at least, so that one is not said on the heels of the other.
func flagLimit(trouble tell.Trouble) time.Duration {
	return min(trouble.FlagAt, flagSoon, trouble.Limit*2/3)
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
	alert := b.alert(AlertTimeTrouble, side, trouble.Level, t, say)
	alert.ID = fmt.Sprintf("%s-%d", alert.ID, trouble.Level)
	return alert
}
