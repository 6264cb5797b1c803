package overlay

import (
	"reflect"
	"testing"

	"clocktell/overlay/wire"
	"clocktell/relay/match"
	"clocktell/relay/relaytest"
)

// TestMatchInTheFrame: a match of four at 1½–½, its third game under way.
func TestMatchInTheFrame(t *testing.T) {
	plan := relaytest.Plan()
	plan.Match = &match.Match{
		Names:  [2]string{"Halloran, Mira", "Pettibone, Jonas"},
		Lineup: [][2]match.Player{{{Name: "Halloran, Mira", Rating: 2510}, {Name: "Pettibone, Jonas", Rating: 2460}}},
		Stages: []match.Stage{{Games: 4, Results: []match.Result{match.FirstWon, match.Drawn}}},
	}
	s := relaytest.NewStageOf(plan)
	s.Take(relaytest.Packet(
		relaytest.Game{White: "Brandvold, Sunniva", Black: "Halloran, Mira", Round: "3"},
		relaytest.Game{White: "Halloran, Mira", Black: "Pettibone, Jonas", Round: "3"}))
	frame := showFrame(s.Show)
	want := &wire.Match{
		First: "Halloran", Second: "Pettibone", FirstScore: "1½", SecondScore: "½", Stage: "regular", Played: 2, Planned: 4,
		Line:     "Halloran leads by one point with two games to play.",
		Forecast: "the ratings expect 1.14 of 2 for Halloran, 0.86 for Pettibone",
		Games: []wire.MatchGame{{
			Board: 2, White: "2½–½, Halloran wins the match", Draw: "2–1, Halloran leads, 1 game to play", Black: "1½–1½, level, 1 game to play",
		}},
		ToCome: []string{"round 4: Pettibone has White"},
	}
	if !reflect.DeepEqual(frame.Match, want) {
		t.Errorf("got  %+v\nwant %+v", frame.Match, want)
	}
	if got := showFrame(relaytest.NewStage().Show).Match; got != nil {
		t.Errorf("without a match %+v", got)
	}
}
