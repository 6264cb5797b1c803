package relay

import (
	"fmt"
	"slices"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
	"clocktell/relay/tell"
)

// AlertKind names what an alert is about.
type AlertKind string

// The alerts of this version.
const (
	AlertInPreparation   AlertKind = "inPreparation"
	AlertLeftPreparation AlertKind = "leftPreparation"
	AlertLongThink       AlertKind = "longThink"
	AlertTimeTrouble     AlertKind = "timeTrouble"
	AlertClockLead       AlertKind = "clockLead"
	AlertClockDoubtful   AlertKind = "clockDoubtful"
	AlertNovelty         AlertKind = "novelty"
	AlertRare            AlertKind = "rare"
	AlertFeedStale       AlertKind = "feedStale"
)

// leftPreparationPlies is how long "left preparation" stays worth saying.
const leftPreparationPlies = 4

// Alert is a condition that holds: raised when it became true, gone when it no
// longer is.
type Alert struct {
	ID    string // the same condition has the same ID as long as it lasts
	Kind  AlertKind
	Side  string // "white", "black" or ""
	Level int
	Ply   int
	At    time.Time // raised
	Say   prompt.Prompt
}

// renewed takes the conditions that hold now; those that held before keep the
// time they were raised and the words they were raised with.
func (b *Board) renewed(now []Alert) []Alert {
	for i := range now {
		for _, was := range b.Alerts {
			if was.ID == now[i].ID {
				now[i] = was
			}
		}
	}
	return now
}

// conditions lists what holds on the board at t. Which alerts are raised and
// cleared follows from it alone.
func (b *Board) conditions(filter tell.Filter, t time.Time) []Alert {
	if b.Over() {
		return nil
	}
	var out []Alert
	for _, side := range []clock.Side{clock.White, clock.Black} {
		out = append(out, b.tellConditions(filter, side, t)...)
		out = append(out, b.clockConditions(filter, side, t)...)
	}
	out = append(out, b.leadCondition(filter, t)...)
	return append(out, b.referenceConditions(t)...)
}

func (b *Board) leadCondition(filter tell.Filter, t time.Time) []Alert {
	stood := slices.ContainsFunc(b.Alerts, func(a Alert) bool { return a.Kind == AlertClockLead })
	lead, ok := filter.Lead([2]time.Duration{b.Left(clock.White, t), b.Left(clock.Black, t)}, stood)
	if !ok || b.Last(clock.White).LeftQuality == clock.QualityNone || b.Last(clock.Black).LeftQuality == clock.QualityNone {
		return nil
	}
	say := prompt.ClockLead(b.Called(lead.Side), lead.By, lead.Evidence)
	return []Alert{b.alert(AlertClockLead, lead.Side, 0, t, say)}
}

func (b *Board) tellConditions(filter tell.Filter, side clock.Side, t time.Time) []Alert {
	var out []Alert
	if b.Calls[side].Verdict == tell.InPreparation {
		out = append(out, b.preparedCondition(side, t))
	}
	for i := max(0, len(b.Plies)-leftPreparationPlies); i < len(b.Plies); i++ {
		if b.moverOf(i) != side || !b.Plies[i].leaves || b.Plies[i].Within == unknownWithin {
			continue // the last: it happened before anybody listened, and is no news
		}
		number, _ := b.MoveNumber(i)
		say := prompt.LeftPreparation(b.Called(side), number, b.Plies[i].Timed.Spent)
		say.Evidence += b.Habits[side].preparation()
		alert := b.alert(AlertLeftPreparation, side, 0, t, say)
		alert.ID, alert.Ply = fmt.Sprintf("%s-%d", alert.ID, i+1), i+1
		out = append(out, alert)
	}
	return out
}

// newsworthyMoves is how many own moves from preparation are worth saying when
// the opponent plays from preparation too.
const newsworthyMoves = 8

// preparedCondition is of level 1 while it is no more than true, and of level 2
// when it is worth saying: it has lasted, or the opponent is on their own.
func (b *Board) preparedCondition(side clock.Side, t time.Time) Alert {
	call, other := b.Calls[side], b.Calls[side.Other()]
	var opponent string
	if other.Verdict == tell.Thinking {
		opponent = b.Called(side.Other())
	}
	level, say := 2, prompt.InPreparation(b.Called(side), opponent, call.Timed, call.Gained)
	if opponent == "" && call.Timed < newsworthyMoves {
		level, say.Priority = 1, prompt.Silent
	}
	alert := b.alert(AlertInPreparation, side, level, t, say)
	alert.ID = fmt.Sprintf("%s-%d", alert.ID, level)
	return alert
}

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
	if b.Levels[side].Level > 0 {
		out = append(out, b.troubleCondition(side, t))
	}
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

func (b *Board) troubleCondition(side clock.Side, t time.Time) Alert {
	trouble := b.Levels[side]
	say := prompt.TimeTrouble(b.Called(side), trouble.Level, trouble.Limit, b.Control.Increment(ownMove(len(b.Plies))), trouble.Evidence)
	for _, was := range b.Alerts {
		if was.Kind == AlertTimeTrouble && was.Side == side.String() && was.Level > trouble.Level {
			say.Priority = prompt.Silent // relief is no news
		}
	}
	alert := b.alert(AlertTimeTrouble, side, trouble.Level, t, say)
	alert.ID = fmt.Sprintf("%s-%d", alert.ID, trouble.Level)
	return alert
}

func (b *Board) alert(kind AlertKind, side clock.Side, level int, t time.Time, say prompt.Prompt) Alert {
	if b.Last(side).LeftQuality == clock.QualityEstimated {
		say.Evidence += " (estimated from when moves arrived)"
	}
	return Alert{
		ID: fmt.Sprintf("board%d-game%d-%s-%s", b.Number, b.Game+1, kind, side), Kind: kind, Side: side.String(),
		Level: level, Ply: len(b.Plies), At: t, Say: say,
	}
}

// Called returns how a side is spoken of: by name, else by colour.
func (b *Board) Called(side clock.Side) string {
	if short := b.Players[side].Short(); short != "" {
		return short
	}
	if side == clock.White {
		return "White"
	}
	return "Black"
}
