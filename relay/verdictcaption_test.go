package relay_test

import (
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
	"clocktell/relay/relaytest"
)

// judge lets an engine say of the newest position of a board that White is so much ahead.
func judge(s *relaytest.Stage, board, depth, centipawns int) {
	b := s.Show.Boards[board-1]
	n := len(b.Plies)
	move := b.Place(n).Moves(nil)[0]
	s.Apply(relay.EngineAnswered{At: s.Now, Board: board, Game: b.Game, Answers: []relay.Judged{{Ply: n, Place: b.Place(n).Hash(), Opinion: opinion.Opinion{
		Engine: "Sounding 3", Depth: depth, Lines: []opinion.Line{{Score: opinion.Score{Centipawns: centipawns}, Depth: depth, Moves: []bitboard.Move{move}}},
	}}}})
}

// TestVerdictComesBack: what was put on the air of the engine's is there again after the
// same events, though nothing in them says how the engine does.
func TestVerdictComesBack(t *testing.T) {
	s := deskStage(t)
	judge(s, 1, relay.AirDepth-1, 150)
	if why := s.AtDesk(relay.AtDesk{Action: "lean"}); why == "" {
		t.Fatal("an opinion that is not deep enough is put on the air")
	}
	judge(s, 1, relay.AirDepth, 150)
	do(t, s, relay.AtDesk{Action: "lean", Who: "Ada"})
	do(t, s, relay.AtDesk{Action: "say-verdict", Who: "Ada"})
	again := relay.NewShow(relaytest.Plan(), relaytest.Start)
	for _, e := range s.Events {
		again = again.After(e)
	}
	if again.Desk.Leans() != s.Show.Desk.Leans() || again.Desk.Leans().Board != 1 {
		t.Errorf("again the lean is %+v, was %+v", again.Desk.Leans(), s.Show.Desk.Leans())
	}
	was := s.Show.OnAir.Caption
	if is := again.OnAir.Caption; is == nil || was == nil || is.Text != was.Text || is.By != "Ada" {
		t.Errorf("again the sentence is %+v, was %+v", is, was)
	}
}

// TestVerdictLeaves: the lean with the next move, the sentence soon after, as any that is
// no longer true; both when somebody asks the viewers; the lean with the result.
func TestVerdictLeaves(t *testing.T) {
	on := func() *relaytest.Stage {
		s := deskStage(t)
		judge(s, 1, 20, -90)
		do(t, s, relay.AtDesk{Action: "lean"})
		do(t, s, relay.AtDesk{Action: "say-verdict"})
		if s.Show.Desk.Leans().Board != 1 || s.Show.OnAir.Caption == nil {
			t.Fatal("nothing is on the air")
		}
		return s
	}
	s := on()
	s.Take(relaytest.Packet(
		relaytest.Game{White: "Orsolic, Dana", Black: "Pellinen, Timo", Round: "1", Control: "600+5", Moves: "e4 e5 Nf3 Nc6"},
		relaytest.Game{White: "Quaas, Birte", Black: "Rimaru, Sorin", Round: "1", Control: "600+5", Moves: "d4"}))
	if s.Show.Desk.Leans().Board != 0 {
		t.Error("the lean stays after the move")
	}
	s.Wait(5 * time.Second)
	if s.Show.OnAir.Caption != nil {
		t.Error("the sentence stays after the move")
	}
	s = on()
	do(t, s, relay.AtDesk{Action: "prepare-challenge"})
	do(t, s, relay.AtDesk{Action: "ask"})
	if s.Show.Desk.Leans().Board != 0 || s.Show.OnAir.Caption != nil {
		t.Error("viewers are asked, and the verdict is on the air")
	}
	s = on()
	if why := s.Enter(relay.ByHand{Board: 1, Act: relay.ActResult, Text: "1-0"}); why != "" {
		t.Fatal(why)
	}
	if s.Show.Desk.Leans().Board != 0 {
		t.Error("the lean stays after the game")
	}
	s = on()
	do(t, s, relay.AtDesk{Action: "say-verdict"})
	do(t, s, relay.AtDesk{Action: "lean"})
	if s.Show.Desk.Leans().Board != 0 || s.Show.OnAir.Caption != nil {
		t.Error("the second press takes nothing off")
	}
}
