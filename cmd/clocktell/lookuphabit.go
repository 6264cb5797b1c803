package main

import (
	"strings"

	"clocktell/relay"
	"clocktell/relay/reference"
)

// habits looks up how players use their clocks.
func (l *library) habits(asked []relay.AskedHabit) []relay.KnownHabit {
	var out []relay.KnownHabit
	for _, a := range asked {
		known := relay.KnownHabit{Side: a.Side, Name: a.Name, Class: a.Class}
		if h, ok := l.habit(a); ok {
			known.Habit.Games, known.Habit.Prepared = h.Games, h.Prepared
			for _, m := range h.Spent {
				known.Habit.Spent = append(known.Habit.Spent, relay.Usual{Move: m.Move, Time: m.Median, Games: m.Games})
			}
			for _, m := range h.Left {
				known.Habit.Left = append(known.Habit.Left, relay.Usual{Move: m.Move, Time: m.Median, Games: m.Games})
			}
		}
		out = append(out, known)
	}
	return out
}

// habit finds a player under the name as asked, or with family and first name the other
// way round.
func (l *library) habit(a relay.AskedHabit) (reference.Habit, bool) {
	for _, name := range spellings(a.Name) {
		if h, ok := l.index.Habits(name, a.Class); ok {
			return h, true
		}
	}
	return reference.Habit{}, false
}

// spellings returns a name as it is and the other way round: "Family, First" is the
// form of PGN (8.1.1.4), "First Family" what many feeds write.
func spellings(name string) []string {
	if family, first, ok := strings.Cut(name, ","); ok {
		return []string{name, strings.TrimSpace(first) + " " + strings.TrimSpace(family)}
	}
	if i := strings.LastIndexByte(name, ' '); i > 0 {
		return []string{name, strings.TrimSpace(name[i+1:]) + ", " + strings.TrimSpace(name[:i])}
	}
	return []string{name}
}
