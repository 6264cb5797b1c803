package relay

import (
	"fmt"
	"strings"
	"time"

	"clocktell/relay/clock"
)

// Correction says that a feed took something back.
type Correction struct {
	Ply     int    // the first that differs, from 1
	Was, Is string // moves in SAN; Is is empty for a takeback
	At      time.Time
}

// noteChanges writes down what changed on a board, each with what was and what is.
func (s *Show) noteChanges(was, now *Board) {
	note := func(kind NoteKind, ply int, before, after string) {
		s.note(Noted{Board: now.Number, Kind: kind, Ply: ply, Was: before, Is: after})
	}
	if now.Game != was.Game || was.Rev == 0 {
		note(NoteGame, 0, was.title(), now.title())
		was = &Board{Players: now.Players, Control: now.Control, Result: "*", Calls: now.Calls}
	}
	for side := range now.Players {
		if was.Players[side] != now.Players[side] {
			note(NotePlayer, 0, was.Players[side].String(), now.Players[side].String())
		}
	}
	if was.Control.String() != now.Control.String() {
		note(NoteControl, 0, was.Control.String(), now.Control.String())
	}
	noteMoves(note, was, now)
	noteClocks(note, was, now)
	if was.Result != now.Result {
		note(NoteResult, len(now.Plies), was.Result, now.Result)
	}
	if was.Fault != now.Fault {
		note(NoteFault, len(now.Plies)+1, was.Fault, now.Fault)
	}
	for side := range now.Calls {
		if before, after := was.Calls[side].Verdict, now.Calls[side].Verdict; before != after {
			note(NoteTell, len(now.Plies), sided(side, before.String()), sided(side, after.String()))
		}
	}
}

func sided(side int, text string) string { return clock.Side(side).String() + " " + text }

func (b *Board) title() string {
	if b.Rev == 0 && b.Players[0].Name == "" {
		return ""
	}
	return fmt.Sprintf("%s – %s, %s", orUnknown(b.Players[clock.White].Name), orUnknown(b.Players[clock.Black].Name), b.Result)
}

// String returns a player as one line.
func (p Player) String() string {
	text := strings.TrimSpace(p.Title + " " + orUnknown(p.Name))
	if p.Rating > 0 {
		text += fmt.Sprintf(" (%d)", p.Rating)
	}
	return text
}

// movesNoted is how many moves one line names.
const movesNoted = 12

func noteMoves(note func(NoteKind, int, string, string), was, now *Board) {
	same := now.sharedPlies(was)
	before, after := was.movesFrom(same), now.movesFrom(same)
	switch {
	case before == "" && after == "":
	case before == "":
		note(NoteMoves, same+1, "", after)
	case after == "":
		note(NoteTakenBack, same+1, before, "")
	default:
		note(NoteReplaced, same+1, before, after)
	}
}

// sharedPlies counts the first plies two boards have in common.
func (b *Board) sharedPlies(other *Board) int {
	n := min(len(b.Plies), len(other.Plies))
	for i := range n {
		if b.Plies[i].SAN != other.Plies[i].SAN {
			return i
		}
	}
	return n
}

// movesFrom names the moves from the ply at index i on.
func (b *Board) movesFrom(i int) string {
	var words []string
	for ; i < len(b.Plies); i++ {
		if len(words) == movesNoted {
			words = append(words, fmt.Sprintf("and %d more", len(b.Plies)-i))
			break
		}
		words = append(words, b.moveText(i))
	}
	return strings.Join(words, " ")
}

// noteClocks tells the first reading that changed after it was told, and how many
// others did.
func noteClocks(note func(NoteKind, int, string, string), was, now *Board) {
	first, more := -1, 0
	for i := range now.sharedPlies(was) {
		if was.Plies[i].Reading == now.Plies[i].Reading {
			continue
		}
		if first < 0 {
			first = i
		} else {
			more++
		}
	}
	if first < 0 {
		return
	}
	after := readingText(now.Plies[first].Reading)
	if more > 0 {
		after += fmt.Sprintf(", and %d more", more)
	}
	note(NoteClock, first+1, readingText(was.Plies[first].Reading), after)
}

func readingText(r clock.Reading) string {
	switch {
	case r.Left.OK:
		return clock.Format(r.Left.D)
	case r.Spent.OK:
		return clock.Format(r.Spent.D) + " spent"
	case r.Total.OK:
		return clock.Format(r.Total.D) + " in all"
	}
	return "none"
}

// noteAlerts writes down which alerts were raised and cleared.
func (s *Show) noteAlerts(was, now []Alert, board int) {
	note := func(kind NoteKind, a Alert) {
		s.note(Noted{Board: board, Kind: kind, Ply: a.Ply, Is: string(a.Kind), Text: a.Say.Text, Engine: a.OfEngine()})
	}
	for _, alert := range was {
		if !hasAlert(now, alert.ID) {
			note(NoteCleared, alert)
		}
	}
	for _, alert := range now {
		if !hasAlert(was, alert.ID) {
			note(NoteRaised, alert)
		}
	}
}

// sameHead reports whether everything but the plies looks the same.
func (b *Board) sameHead(next *Board) bool {
	return b.Game == next.Game && b.Key == next.Key && b.Players == next.Players && b.Result == next.Result && b.Fault == next.Fault &&
		b.Control.Same(next.Control) && b.start.text == next.start.text && b.HeldAt.Equal(next.HeldAt)
}
