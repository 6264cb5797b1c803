package relay

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/prompt"
	"clocktell/relay/tell"
)

// AlertKind names what an alert is about.
type AlertKind string

// The alerts of this version.
const (
	AlertInPreparation     AlertKind = "inPreparation"
	AlertLeftPreparation   AlertKind = "leftPreparation"
	AlertBackInPreparation AlertKind = "backInPreparation"
	AlertFirstThink        AlertKind = "firstThink"
	AlertQuickUnknown      AlertKind = "quickUnknown"
	AlertLongThink         AlertKind = "longThink"
	AlertTimeTrouble       AlertKind = "timeTrouble"
	AlertOnIncrement       AlertKind = "onIncrement"
	AlertFlagNear          AlertKind = "flagNear"
	AlertToControl         AlertKind = "toControl"
	AlertClockLead         AlertKind = "clockLead"
	AlertCatchingUp        AlertKind = "catchingUp"
	AlertClockDoubtful     AlertKind = "clockDoubtful"
	AlertTimeAdded         AlertKind = "timeAdded"
	AlertPace              AlertKind = "pace"
	AlertOpening           AlertKind = "opening"
	AlertSeldom            AlertKind = "seldomPlayed"
	AlertKnownScore        AlertKind = "knownScore"
	AlertNovelty           AlertKind = "novelty"
	AlertRare              AlertKind = "rare"
	AlertMatchStake        AlertKind = "matchStake"
	AlertMatchScore        AlertKind = "matchScore"
	AlertPosition          AlertKind = "position" // its ID tells the rule of package remark
	AlertFeedStale         AlertKind = "feedStale"
	// What the engine says.
	AlertSwing         AlertKind = "swing"
	AlertMissedMate    AlertKind = "missedMate"
	AlertOnlyMove      AlertKind = "onlyMove"
	AlertRefuted       AlertKind = "refuted"
	AlertFirstChoice   AlertKind = "firstChoice"
	AlertHardThink     AlertKind = "hardThink"
	AlertEasyThink     AlertKind = "easyThink"
	AlertQuietPosition AlertKind = "quietPosition"
)

// leftPreparationPlies is how long a turn of the tell, such as "left preparation", stays
// worth saying.
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
		return b.stakeConditions(t)
	}
	var out []Alert
	for _, side := range []clock.Side{clock.White, clock.Black} {
		out = append(out, b.tellConditions(filter, side, t)...)
		out = append(out, b.clockConditions(filter, side, t)...)
	}
	out = append(out, b.gapConditions(filter, t)...)
	out = append(out, b.stakeConditions(t)...)
	out = append(out, b.referenceConditions(t)...)
	out = append(out, b.openingConditions(t)...)
	out = b.engineConditions(out, t)
	out = append(out, b.factConditions(t, b.quietBefore(out))...) // behind clock and tell, which come first when there is no room
	return append(out, b.paceConditions(t, b.quietBefore(out))...)
}

// saying returns the alert of a kind and side that stands and was worth a word, if any.
func (b *Board) saying(kind AlertKind, side clock.Side) (Alert, bool) {
	for _, a := range b.Alerts {
		if a.Kind == kind && a.Side == side.String() && a.Say.Priority != prompt.Silent {
			return a, true
		}
	}
	return Alert{}, false
}

func (b *Board) alert(kind AlertKind, side clock.Side, level int, t time.Time, say prompt.Prompt) Alert {
	if b.Last(side).LeftQuality == clock.QualityEstimated {
		say.Evidence += " (" + b.in.Estimated() + ")"
	}
	return Alert{
		ID: fmt.Sprintf("board%d-game%d-%s-%s", b.Number, b.Game+1, kind, side), Kind: kind, Side: side.String(),
		Level: level, Ply: len(b.Plies), At: t, Say: say,
	}
}
