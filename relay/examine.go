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
	Summary string
	Faults  []string // what keeps the game from being shown whole
	Notes   []string // what the show will have to do without
}

// Good reports that the game can be shown whole.
func (r Report) Good() bool { return len(r.Faults) == 0 }

// Examine plays a game through as the show would and reports on it.
func Examine(g *pgn.Game, defaults Defaults) Report {
	b := newBoard(1, prompt.English).Apply(g, Receipt{}, defaults)
	r := Report{Summary: summaryOf(b)}
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

func notesOn(b *Board, g *pgn.Game) []string {
	var notes []string
	if n := len(b.Plies) - readings(b); n > 0 {
		notes = append(notes, fmt.Sprintf("%d of %d plies have no clock; their times will be estimated", n, len(b.Plies)))
	}
	if _, err := clock.ParseControl(g.Tag("TimeControl")); err != nil && g.Tag("TimeControl") != "" {
		notes = append(notes, err.Error())
	}
	if !b.Control.Known() {
		notes = append(notes, "no time control: add a TimeControl tag to the feed, or set time_control in the configuration")
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
