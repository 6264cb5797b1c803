package relay

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"clocktell/relay/clock"
	"clocktell/relay/pgn"
)

// firstClockChange takes the readings of moves that stand, and returns the
// first index whose reading is another one. The plies are copied before the
// first write: the board before still shows them.
func (next *Board) firstClockChange(moves []pgn.Move) int {
	first := len(next.Plies)
	for i := range moves {
		reading, misread := next.readingAt(i, &moves[i])
		if reading == next.Plies[i].Reading && misread == next.Plies[i].Misread || next.keepsReading(i, reading) {
			continue
		}
		if first > i {
			first, next.Plies = i, slices.Clone(next.Plies)
		}
		next.Plies[i].Reading, next.Plies[i].Misread = reading, misread
	}
	return first
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
