package match

import (
	"slices"
	"strconv"
	"strings"
)

// find returns which of the fitting slots a game with a Round tag is, -1 if that cannot
// be said. If its players have only one game in the plan, it is that one, whatever its
// round. The rivals are the tags of all games between them.
func (m Match) find(slots []slot, fits []int, tag string, rivals []string) int {
	if len(fits) == 1 {
		return fits[0]
	}
	for _, at := range fits {
		s := slots[at]
		stage := m.Stages[s.Stage]
		if len(stage.Rounds) > 0 {
			if strings.TrimSpace(stage.Rounds[s.Game/stage.boards()]) == strings.TrimSpace(tag) {
				return at
			}
			continue
		}
		board := 0
		if stage.boards() > 1 {
			board = s.Board
		}
		if round, ok := roundOf(tag, board, rivals); ok && round == s.Round {
			return at
		}
	}
	return -1
}

// roundOf returns the number of a round that a Round tag means, and false if that
// cannot be said. "3" means 3. With teams "2.4" is round 2 if the game is on board 4. Of
// two players it may be game 4 of round 2 or round 2 on board 4; then that number
// counts in which the tags of all games between them differ, or which is the only one.
func roundOf(tag string, board int, rivals []string) (int, bool) {
	numbers := numbersOf(tag)
	switch {
	case len(numbers) == 0:
		return 0, false
	case len(numbers) == 1:
		return numbers[0], true
	case board > 0:
		return numbers[0], len(numbers) == 2 && numbers[1] == board
	}
	differs := -1
	for i := range numbers {
		for _, rival := range rivals {
			other := numbersOf(rival)
			if len(other) != len(numbers) || other[i] != numbers[i] && differs >= 0 && differs != i {
				return 0, false
			}
			if other[i] != numbers[i] {
				differs = i
			}
		}
	}
	if differs >= 0 {
		return numbers[differs], true
	}
	return numbers[0], len(slices.Compact(numbers)) == 1
}

// numbersOf splits a Round tag into its numbers, none if it has anything else.
func numbersOf(tag string) []int {
	var out []int
	for _, word := range strings.Split(strings.TrimSpace(tag), ".") {
		n, err := strconv.Atoi(word)
		if err != nil || n < 1 {
			return nil
		}
		out = append(out, n)
	}
	return out
}
