package relay_test

import (
	"fmt"
	"testing"

	"clocktell/relay/match"
	"clocktell/relay/relaytest"
)

// BenchmarkMatch is a result of one of 32 boards of a team match over four rounds, all
// that follows from it on the other boards included.
func BenchmarkMatch(b *testing.B) {
	const boards = 32
	m := &match.Match{Names: [2]string{"Harbour Bridge", "Old Mill"}, Stages: []match.Stage{{Games: 4 * boards, Boards: boards}}}
	var games []relaytest.Game
	for i := range boards {
		pair := [2]match.Player{{Name: fmt.Sprintf("First, N%d", i)}, {Name: fmt.Sprintf("Second, N%d", i)}}
		m.Lineup = append(m.Lineup, pair)
		games = append(games, relaytest.Game{White: pair[0].Name, Black: pair[1].Name, Table: fmt.Sprint(i + 1), Moves: six})
	}
	plan := relaytest.Plan()
	plan.Match, plan.MaxBoards = m, boards
	s := relaytest.NewStageOf(plan)
	s.Take(relaytest.Packet(games...))
	games[7].Result = "1-0"
	event := s.Packet(relaytest.Packet(games...))
	if len(s.Show.Apply(event).Match.Boards) != boards {
		b.Fatal("the boards are not of the match")
	}
	b.ReportAllocs()
	for b.Loop() {
		s.Show.Apply(event)
	}
}
