package main

import (
	"fmt"
	"testing"

	"clocktell/relay"
	"clocktell/relay/match"
	"clocktell/testdata/demo"
)

// TestDemoMatch: the games of the demo make its match level, so that the feed's second
// round is the extra one, and that decides.
func TestDemoMatch(t *testing.T) {
	c := demoMatch()
	plan := c.Plan()
	if err := plan.Check(); err != nil {
		t.Fatal(err)
	}
	hall, err := newArena(demo.FS, relay.NewTimebase(1).Now)
	if err != nil {
		t.Fatal(err)
	}
	var games []match.Game
	for round := 1; round <= 3; round++ {
		for i := range hall.games {
			g := hall.games[i].at(hall.ends())
			games = append(games, match.Game{White: g.Tag("White"), Black: g.Tag("Black"), Result: g.Tag("Result"), Round: fmt.Sprint(round)})
		}
		m, taken := plan.Take(games)
		s := m.Standing()
		winner, decided := s.Possible.Decided()
		switch round {
		case 1:
			if score := m.Stages[0].Score(); score != (match.Tally{6, 6}) || decided || s.Stage != 1 {
				t.Errorf("after round 1: %v, %+v", score, s)
			}
		default: // further rounds are not of the match
			if !decided || winner != match.First || s.Score != (match.Tally{3, 1}) || len(taken.Unplaced) != 2*(round-2) {
				t.Errorf("after round %d: %+v, %+v", round, s, taken)
			}
		}
	}
}
