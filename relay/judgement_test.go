package relay

import (
	"testing"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/desk"
	"clocktell/relay/opinion"
	"clocktell/relay/prompt"
)

func TestOutcomeOf(t *testing.T) {
	for _, c := range []struct {
		score opinion.Score
		want  prompt.Outcome
	}{
		{opinion.Score{Centipawns: LevelBelow - 1}, prompt.Outcome{}},
		{opinion.Score{Centipawns: LevelBelow}, prompt.Outcome{Size: prompt.Slight, Halves: 1}},
		{opinion.Score{Centipawns: -74}, prompt.Outcome{Size: prompt.Slight, Side: clock.Black, Halves: 1}},
		{opinion.Score{Centipawns: -75}, prompt.Outcome{Size: prompt.Better, Side: clock.Black, Halves: 2}},
		{opinion.Score{Centipawns: 150, Bound: opinion.AtMost}, prompt.Outcome{Size: prompt.Better, Halves: 3, Bound: prompt.AtMost}},
		{opinion.Score{Centipawns: -150, Bound: opinion.AtMost}, prompt.Outcome{Size: prompt.Better, Side: clock.Black, Halves: 3, Bound: prompt.AtLeast}},
		{opinion.Score{Centipawns: 175}, prompt.Outcome{Size: prompt.Clear, Halves: 4}},
		{opinion.Score{Centipawns: 300}, prompt.Outcome{Size: prompt.Winning, Halves: 6}},
		{opinion.Score{Mate: 3}, prompt.Outcome{Size: prompt.Mating, Mate: 3}},
		{opinion.Score{Mate: -4}, prompt.Outcome{Size: prompt.Mating, Side: clock.Black, Mate: 4}},
	} {
		if got := outcomeOf(c.score); got != c.want {
			t.Errorf("%+v is %+v, want %+v", c.score, got, c.want)
		}
	}
}

// TestWithoutEngine: sentences, suggestions and captions of a board that are the engine's
// are taken out; those of other boards and of other kinds stay.
func TestWithoutEngine(t *testing.T) {
	of := func(board int, kind prompt.Kind, said string) BoardPrompt {
		return BoardPrompt{Board: board, Prompt: prompt.Prompt{Kind: kind, Text: said}}
	}
	s := NewShow(Plan{}, time.Now())
	engine := Alert{Kind: "first", Say: prompt.Prompt{Kind: prompt.KindEngine}}
	s.Boards = []*Board{{Number: 1, Alerts: []Alert{engine, {Kind: "second"}}}, {Number: 2, Alerts: []Alert{engine}}}
	s.Said.Items = []BoardPrompt{of(1, prompt.KindEngine, "a"), of(1, prompt.KindTell, "b"), of(2, prompt.KindEngine, "c")}
	s.OnAir.Caption = &Caption{Board: 1, Kind: prompt.KindEngine}
	hot := *s.Desk
	hot.Hot = append(hot.Hot, desk.Suggestion{Board: 1, Kind: "first"}, desk.Suggestion{Board: 1, Kind: "second"}, desk.Suggestion{Board: 2, Kind: "first"})
	s.Desk = &hot
	next := s.WithoutEngine(1)
	if len(next.Said.Items) != 2 || next.Said.Items[0].Text != "b" || next.OnAir.Caption != nil || len(next.Desk.Hot) != 2 || next.Desk.Hot[0].Kind != "second" || next.EngineKept() != 1 {
		t.Errorf("%+v, %+v, %+v", next.Said.Items, next.OnAir, next.Desk.Hot)
	}
	if len(s.Said.Items) != 3 || s.OnAir.Caption == nil || len(s.Desk.Hot) != 3 {
		t.Error("the show itself has changed")
	}
}
