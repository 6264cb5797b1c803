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
		alert := b.alert(AlertLongThink, side, 0, t, prompt.LongThink(b.Called(side), number, limit, b.Levels[side].Usual))
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
		alert := b.alert(AlertClockDoubtful, side, 0, t, prompt.ClockDoubtful(b.Called(side), b.moveText(i)+": "+ply.Timed.Doubt))
		alert.Ply = i + 1
		return []Alert{alert}
	}
	return nil
}

// controlNear is how many moves to the control are worth counting aloud, for a side that
// is short of time for them.
const controlNear = 15

// troubleConditions lists what a side's time trouble is worth saying.
func (b *Board) troubleConditions(side clock.Side, t time.Time) []Alert {
	trouble, name := b.Levels[side], b.Called(side)
	var out []Alert
	if trouble.Level > 0 {
		out = append(out, b.levelAlert(side, trouble, t))
	}
	if trouble.OnIncrement {
		out = append(out, b.alert(AlertOnIncrement, side, 0, t, prompt.OnIncrement(name, trouble.Evidence)))
	}
	if trouble.FlagNear {
		out = append(out, b.alert(AlertFlagNear, side, 0, t, prompt.FlagNear(name, trouble.FlagAt)))
	}
	if trouble.Level > 0 && trouble.ToControl > 0 && trouble.ToControl <= controlNear {
		say := prompt.ToControl(name, trouble.ToControl, b.Left(side, t), trouble.Evidence)
		out = append(out, b.alert(AlertToControl, side, 0, t, say))
	}
	return out
}

// levelAlert is silent where there is no news in it: after a worse level, and where what
// makes the level is said on its own.
func (b *Board) levelAlert(side clock.Side, trouble tell.Trouble, t time.Time) Alert {
	say := prompt.TimeTrouble(b.Called(side), trouble.Level, trouble.Limit, trouble.Evidence)
	if trouble.Level == 3 && b.Left(side, t) >= trouble.Limit {
		say.Priority = prompt.Silent // it plays on the increment
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
