package relay

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"clocktell/relay/clock"
	"clocktell/relay/pgn"
)

// heardClock is what a feed says of the clocks after a ply, and what of it is no reading.
type heardClock struct {
	reading clock.Reading
	misread string
}

func heardOf(move *pgn.Move) heardClock {
	reading, misread := readingOf(move)
	return heardClock{reading, misread}
}

// takeReadings takes what moves that stand say of their clocks, and on all plies the
// clocks entered by hand. It returns the first index, at most from, at which another
// reading is shown. The plies are copied before the first write: the board before still
// shows them.
func (next *Board) takeReadings(moves []pgn.Move, from int) int {
	copied := false
	for i := range next.Plies {
		is := &next.Plies[i]
		told := is.told
		if i < len(moves) {
			if said := heardOf(&moves[i]); !next.keepsReading(i, said.reading) {
				told = said
			}
		}
		shown := next.handedClock(i, told)
		seen := shown != heardClock{is.Reading, is.Misread}
		if !seen && told == is.told {
			continue
		}
		if !copied {
			copied, next.Plies = true, slices.Clone(next.Plies)
		}
		is = &next.Plies[i]
		is.told, is.Reading, is.Misread = told, shown.reading, shown.misread
		if seen {
			from = min(from, i)
		}
	}
	return from
}

// readingOf returns what a move's comments say of the clocks, and what of it is no
// reading.
func readingOf(move *pgn.Move) (clock.Reading, string) {
	left, misread := valueOf(move, "clk")
	spent, misspent := valueOf(move, "emt")
	total, mistotal := valueOf(move, "egt")
	return clock.Reading{Left: left, Spent: spent, Total: total}, cmp.Or(misread, misspent, mistotal)
}

func valueOf(move *pgn.Move, name string) (clock.Value, string) {
	operands, ok := move.Command(name)
	if !ok {
		return clock.Value{}, ""
	}
	d, err := clock.ParseReading(strings.Join(operands, ","))
	if err != nil {
		return clock.Value{}, fmt.Sprintf("%s: %v", name, err)
	}
	return clock.Value{D: d, OK: true}, ""
}
