package match_test

import (
	"fmt"

	"clocktell/relay/match"
)

// A match of four games with two rapid games behind it, as a feed tells it before its
// last game.
func Example() {
	plan := match.Match{
		Names:  [2]string{"Mira Halloran", "Jonas Pettibone"},
		Lineup: [][2]match.Player{{{Name: "Mira Halloran", Rating: 2510}, {Name: "Jonas Pettibone", Rating: 2460}}},
		Stages: []match.Stage{{Games: 4}, {Kind: match.Rapid, Games: 2}},
	}
	if err := plan.Check(); err != nil {
		fmt.Println(err)
		return
	}
	m, _ := plan.Take([]match.Game{
		{White: "Pettibone, Jonas", Black: "Halloran, Mira", Result: "0-1", Round: "1"},
		{White: "Halloran, Mira", Black: "Pettibone, Jonas", Result: "1/2-1/2", Round: "2"},
		{White: "Pettibone, Jonas", Black: "Halloran, Mira", Result: "1/2-1/2", Round: "3"},
		{White: "Halloran, Mira", Black: "Pettibone, Jonas", Result: "*", Round: "4"},
	})
	next := m.ToCome()[0]
	mira, _ := m.Meaning(next.Stage, next.Game, match.First)
	jonas, _ := m.Meaning(next.Stage, next.Game, match.Second)
	score := m.Standing().Score
	fmt.Printf("%v–%v, game %d\n", score[0], score[1], next.Round)
	fmt.Println("a draw is enough for White:", next.White == match.First && mira.DrawEnough)
	fmt.Println("Black must win:", jonas.MustWin, "and then there is a tie-break:", jonas.Win.TieBreak > 0)
	forecast, _ := m.Forecast()
	fmt.Println("the ratings expect", forecast.Total[0], "to", forecast.Total[1])
	// Output:
	// 2–1, game 4
	// a draw is enough for White: true
	// Black must win: true and then there is a tie-break: true
	// the ratings expect 2.57 to 1.43
}
