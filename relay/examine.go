package relay

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/pgn"
	"clocktell/relay/prompt"
)

// Report is what can be said of one game before the show.
type Report struct {
	Summary      string
	White, Black string // "" unknown, as all of these
	Round, Table string
	Plies        int
	Clocks       int      // plies with a clock
	Control      string   // the time control, in words
	Faults       []string // what keeps the game from being shown whole
	Doubts       []string // what would be shown wrong, or not at all, if it stays as it is; each with what to do
	Notes        []string // what the show will have to do without
}

// Good reports that the game can be shown whole.
func (r Report) Good() bool { return len(r.Faults) == 0 }

// Examine plays a game through as the show would and reports on it.
func Examine(g *pgn.Game, defaults Defaults) Report {
	b := newBoard(1, prompt.English).Apply(g, Receipt{}, defaults)
	r := Report{
		Summary: summaryOf(b), White: b.Players[clock.White].Name, Black: b.Players[clock.Black].Name, Round: b.Key.Round, Table: b.Key.Table,
		Plies: len(b.Plies), Clocks: readings(b), Doubts: doubtsOn(b, g),
	}
	if b.Control.Known() {
		r.Control = b.Control.String()
	}
	if b.Fault != "" {
		r.Faults = append(r.Faults, b.Fault)
	}
	for _, fault := range g.Faults {
		if fault.Harmless() {
			r.Notes = append(r.Notes, fault.String())
		} else {
			r.Faults = append(r.Faults, fault.String())
		}
	}
	r.Notes = append(r.Notes, notesOn(b, g)...)
	return r
}

func summaryOf(b *Board) string {
	control := "no time control"
	if b.Control.Known() {
		control = fmt.Sprintf("%s (%s)", b.Control, b.Control.Class())
	}
	return fmt.Sprintf("%s – %s, round %s board %s: %d plies, %s, %d clock readings, %s",
		orUnknown(b.Players[clock.White].Name), orUnknown(b.Players[clock.Black].Name),
		orUnknown(b.Key.Round), orUnknown(b.Key.Table), len(b.Plies), b.Result, readings(b), control)
}

func orUnknown(text string) string {
	if text == "" {
		return "?"
	}
	return text
}

func readings(b *Board) int {
	n := 0
	for i := range b.Plies {
		if b.Plies[i].Reading != (clock.Reading{}) {
			n++
		}
	}
	return n
}

// doubtsOn tells what of the clocks would be shown wrong.
func doubtsOn(b *Board, g *pgn.Game) []string {
	var doubts []string
	if _, err := clock.ParseControl(g.Tag("TimeControl")); err != nil && g.Tag("TimeControl") != "" {
		doubts = append(doubts, err.Error()+"; have the feed mend its TimeControl tag, or set time_control in the configuration")
	}
	switch {
	case !b.Control.Known():
		doubts = append(doubts, "no time control: add a TimeControl tag to the feed, or set time_control in the configuration")
	case controlDoubt(b) != "":
		doubts = append(doubts, controlDoubt(b))
	}
	if n := len(b.Plies); n > 0 && readings(b) == 0 {
		doubts = append(doubts, fmt.Sprintf("%d of %d plies have no clock; their times will be estimated: have the feed write a clk behind every move", n, n))
	}
	return doubts
}

// controlDoubt compares the first clock of each side with the time control. That a clock
// begins above it, or that both have lost more than half of it by their first moves,
// means another time control (common practice, no source).
func controlDoubt(b *Board) string {
	base := b.Control.Start()
	low := 0
	for ply := range min(2, len(b.Plies)) {
		first := b.Plies[ply].Reading.Left
		switch {
		case !first.OK || b.Plies[ply].Misread != "":
			continue
		case first.D > base+b.Control.Bonus(1)+b.Control.Increment(1)+time.Second:
			return fmt.Sprintf("the first clock shows %s, more than the time control %s gives: see whether the TimeControl tag is right, or set time_control in the configuration",
				clock.Format(first.D), b.Control.Period(1))
		case first.D < base/2:
			low++
		}
	}
	if low == 2 {
		return fmt.Sprintf("after their first moves both clocks show less than half of what the time control %s gives: see whether the TimeControl tag is right, or set time_control in the configuration", b.Control.Period(1))
	}
	return ""
}

func notesOn(b *Board, g *pgn.Game) []string {
	var notes []string
	if n := len(b.Plies) - readings(b); n > 0 && n < len(b.Plies) {
		notes = append(notes, fmt.Sprintf("%d of %d plies have no clock; their times will be estimated", n, len(b.Plies)))
	}
	if b.Control.Reads.Before {
		notes = append(notes, "clocks are read before the increment of their move is added")
	}
	if b.Coarse() {
		notes = append(notes, "clocks are in whole minutes; seconds will be estimated")
	}
	for i := range b.Plies {
		for _, odd := range []string{b.Plies[i].Timed.Doubt, b.Plies[i].Mended} {
			if odd != "" {
				notes = append(notes, fmt.Sprintf("%s: %s", b.moveText(i), odd))
			}
		}
	}
	if g.Result == "" {
		notes = append(notes, "no result behind the moves; write * while the game goes on")
	}
	return notes
}

// Spent returns the time each ply of a game took by its clocks.
func Spent(g *pgn.Game) []time.Duration {
	b := newBoard(1, prompt.English).Apply(g, Receipt{}, Defaults{})
	spent := make([]time.Duration, len(b.Plies))
	for i := range b.Plies {
		spent[i] = b.Plies[i].Timed.Spent
	}
	return spent
}
