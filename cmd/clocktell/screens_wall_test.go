package main

import (
	"fmt"
	"testing"

	"clocktell/overlay/wire"
)

// wallScreens are walls whose first board is in a state, and each wall has another number of boards.
var wallScreens = boardScreens(aWall, map[string]func(*testing.T) screen{
	"twelve": func(t *testing.T) screen { return wallOfStates(t, screenBoard(t, "time trouble"), 12) },
	"twelve-calm": func(t *testing.T) screen {
		s := wallOfStates(t, screenBoard(t, "time trouble"), 12)
		s.query = "&lift=off"
		return s
	},
})

// aWall takes its number of boards, 2 to 8, from what the first one is like.
func aWall(t *testing.T, b wire.Board) screen {
	t.Helper()
	return wallOfStates(t, b, 2+len(fmt.Sprint(len(b.Plies), b.Result, b.Feed.State, b.White.Short, b.Alerts))%7)
}

// wallOfStates is a wall once it has had the time to choose a board: between its boards stand
// such as a show has besides the one where it burns.
func wallOfStates(t *testing.T, first wire.Board, count int) screen {
	t.Helper()
	boards := []wire.Board{first}
	others := []string{"thinking", "preparation", "result", "estimated", "no clocks", "stale", "start", "minutes", "frozen", "hours", "thinking"}
	for i := range count - 1 {
		b := stated(t, i+2, others[i], screenNow)
		b.At -= 60_000 // its result is no news
		boards = append(boards, b)
	}
	return screen{frames: screenShow(false, boards...), then: "pass(600);"}
}
