package relay_test

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
	"clocktell/relay/prompt"
	"clocktell/relay/relaytest"
)

// TestEngineFold: the same events give the same show, whatever the engine said between.
func TestEngineFold(t *testing.T) {
	s := relaytest.NewStage()
	s.Record = true
	turn(s)
	s.Same(time.Minute)
	again := relay.NewShow(relaytest.Plan(), relaytest.Start)
	for _, e := range s.Events {
		again = again.After(e)
	}
	again = again.AdvancedTo(s.Now)
	a, b := s.Show, again
	if !reflect.DeepEqual(a.Said, b.Said) || !reflect.DeepEqual(a.Boards[0].Alerts, b.Boards[0].Alerts) || !reflect.DeepEqual(a.Boards[0].Plies[3].Opinion, b.Boards[0].Plies[3].Opinion) || len(a.Said.Items) == 0 {
		t.Errorf("again the panel has %+v, had %+v", b.Said, a.Said)
	}
}

// TestQuietStretch: once of a game, when the engine has had it level for eight moves and nothing
// else is fresh.
func TestQuietStretch(t *testing.T) {
	const moves = "a3 a6 b3 b6 c3 c6 d3 d6 e3 e6 f3 f6 g3 g6 h3 h6 a4 a5 b4 b5 c4 c5 d4 d5 e4 e5 f4 f5 g4 g5 h4 h5 Nf3 Nf6 Nc3 Nc6 Ng1 Ng8"
	for worse, want := range map[int]int{0: 1, 20: 1, 30: 0} { // the ply after which White is better, 0: none
		s := relaytest.NewStage()
		h := &told{stage: s, moves: strings.Fields(moves)}
		for ply := 1; ply <= len(h.moves); ply++ {
			h.tell(ply)
			place := s.Board(1).Place(ply)
			o := opinion.Opinion{Engine: "made up", Depth: 14, Final: true}
			for _, m := range place.Moves(nil) {
				if len(o.Lines) < 3 && place.Piece(m.To()) == bitboard.NoPiece {
					o.Lines = append(o.Lines, opinion.Line{Depth: 14, Moves: []bitboard.Move{m}})
				}
			}
			if ply == worse {
				o.Lines[0].Score.Centipawns = 90
			}
			o.Steps = []opinion.Step{{Depth: 14, First: o.Lines[0].First(), Score: o.Lines[0].Score}}
			s.Apply(relay.EngineAnswered{At: s.Now, Board: 1, Answers: []relay.Judged{{Ply: ply, Place: place.Hash(), Opinion: o}}})
		}
		got := 0
		for _, n := range s.Show.Log.After(0) {
			if n.Kind == relay.NoteRaised && n.Is == string(relay.AlertQuietPosition) {
				got++
			}
		}
		if got != want {
			t.Errorf("White better after ply %d: a quiet stretch was told of %d times, want %d", worse, got, want)
		}
	}
}

// TestSwingIsSuggested: another board that turned is suggested, for a minute.
func TestSwingIsSuggested(t *testing.T) {
	s := relaytest.NewStage()
	turn(s)
	hot := s.Show.Desk.Hot
	if len(hot) != 1 || hot[0].Kind != "swing" || hot[0].Reason != turned || hot[0].Board != 1 || hot[0].Side != "black" {
		t.Fatalf("suggested are %+v", hot)
	}
	s.Same(61 * time.Second)
	for _, h := range s.Show.Desk.Hot {
		if h.Kind == "swing" {
			t.Errorf("a minute later %+v is suggested", h)
		}
	}
}

// TestEngineDuringAQuestion: while viewers are asked for the next move of a board, what the engine
// says of it reaches nobody who must not know it, and nobody can put it on the air.
func TestEngineDuringAQuestion(t *testing.T) {
	s := relaytest.NewStage()
	turn(s)
	for _, act := range []relay.AtDesk{{Action: "go-to", Board: 1, Ply: 4}, {Action: "prepare-challenge"}, {Action: "ask"}} {
		if why := s.AtDesk(act); why != "" {
			t.Fatal(why)
		}
	}
	for _, item := range s.Show.WithoutEngine(s.Show.EngineHides().Board).Said.Items {
		if item.Kind == prompt.KindEngine {
			t.Errorf("others are told %q", item.Text)
		}
	}
	if show, _ := s.Show.ForScenes(); len(show.Boards[0].Alerts) != 0 {
		t.Errorf("scenes are sent alerts %+v", show.Boards[0].Alerts)
	}
}
