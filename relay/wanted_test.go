package relay_test

import (
	"testing"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
	"clocktell/relay/relaytest"
)

// do does an action at the desk that must be done.
func do(t *testing.T, s *relaytest.Stage, act relay.AtDesk) {
	t.Helper()
	if why := s.AtDesk(act); why != "" {
		t.Fatalf("%s: %s", act.Action, why)
	}
}

func TestWantedBeginsWithTheDesk(t *testing.T) {
	s := deskStage(t)
	do(t, s, relay.AtDesk{Action: "look-at", Board: 2})
	want := s.Show.Wanted()
	if len(want) != 2 || want[0].For != relay.WantedAtDesk || want[0].Board != 2 || want[0].Ply != 1 || want[1].Board != 1 || want[1].For != relay.WantedOnAir {
		t.Fatalf("wanted %+v", want)
	}
	do(t, s, relay.AtDesk{Action: "look-at", Board: 1})
	do(t, s, relay.AtDesk{Action: "play", SAN: "Nc6"})
	do(t, s, relay.AtDesk{Action: "play", SAN: "Bc4"})
	want = s.Show.Wanted()
	if len(want) != 3 || want[0].Ply != relay.OffGame || want[0].Board != 1 {
		t.Fatalf("on a side line wanted %+v", want)
	}
	for _, w := range want {
		from, moves, ok := s.Show.Course(w)
		for _, m := range moves {
			if !from.IsLegal(m) {
				t.Fatalf("%+v: %v is not legal in %s", w, m, from.FEN())
			}
			from.Make(m)
		}
		if !ok || from.Hash() != w.Place {
			t.Errorf("the course to %+v ends at %s, %v", w, from.FEN(), ok)
		}
	}
	if _, moves, _ := s.Show.Course(want[0]); len(moves) != 5 {
		t.Errorf("the side line is %v from the start of the game", moves)
	}
	do(t, s, relay.AtDesk{Action: "back"})
	if _, _, ok := s.Show.Course(want[0]); ok {
		t.Error("a position that the desk has left still has a course")
	}
}

func TestNoOpinionIsWantedWithoutAMove(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Moves: "f3 e5 g4 Qh4#"}))
	if want := s.Show.Wanted(); len(want) != 0 {
		t.Errorf("of a mate wanted %+v", want)
	}
}

// TestNoOpinionIsWantedOfAnotherGame: where the start cannot be read, as with the castling rights
// of Chess960, the usual start stands on the board, and nobody may be told what it is worth.
func TestNoOpinionIsWantedOfAnotherGame(t *testing.T) {
	s := relaytest.NewStage()
	s.Take("[White \"A\"]\n[Black \"B\"]\n[SetUp \"1\"]\n[FEN \"bqnbrkrn/pppppppp/8/8/8/8/PPPPPPPP/BQNBRKRN w GEge - 0 1\"]\n\n1. e4 e5 *\n")
	if b := s.Board(1); b.Fault == "" || b.HasStart() {
		t.Fatalf("the board's fault is %q: this shows nothing", b.Fault)
	}
	if want := s.Show.Wanted(); len(want) != 0 {
		t.Errorf("wanted %+v", want)
	}
	do(t, s, relay.AtDesk{Action: "look-at", Board: 1})
	if want := s.Show.Wanted(); len(want) != 0 {
		t.Errorf("at the desk wanted %+v", want)
	}
}

func aside(place uint64, depth int) relay.Judged {
	return relay.Judged{Ply: relay.OffGame, Place: place, Opinion: opinion.Opinion{
		Engine: "Sounding 3", Depth: depth, Lines: []opinion.Line{{Score: opinion.Score{Centipawns: 31}, Depth: depth, Moves: []bitboard.Move{1}}},
	}}
}

func TestOpinionsOffTheGameAreKeptWithinBounds(t *testing.T) {
	s := deskStage(t)
	rev := s.Show.Boards[0].Rev
	for n := range relay.AsidesMost + 1 {
		s.Apply(relay.EngineAnswered{At: s.Now, Board: 1, Answers: []relay.Judged{aside(uint64(1000+n), 12)}})
	}
	if s.Show.OpinionOff(1000) != nil || s.Show.OpinionOff(1001) == nil || s.Show.OpinionOff(1000+relay.AsidesMost) == nil {
		t.Error("not the newest are kept")
	}
	s.Apply(relay.EngineAnswered{At: s.Now, Board: 1, Answers: []relay.Judged{aside(1001, 11)}})
	if got := s.Show.OpinionOff(1001).Depth; got != 12 {
		t.Errorf("an opinion gave way to one of depth %d", got)
	}
	if s.Show.Boards[0].Rev != rev {
		t.Error("an opinion off the game changed the board")
	}
}

func TestOpinionAtDesk(t *testing.T) {
	s := deskStage(t)
	do(t, s, relay.AtDesk{Action: "play", SAN: "Nc6"})
	w := s.Show.Wanted()[0]
	s.Apply(relay.EngineAnswered{At: s.Now, Board: w.Board, Answers: []relay.Judged{aside(w.Place, 9)}})
	if o := s.Show.OpinionAtDesk(); o == nil || o.Depth != 9 {
		t.Errorf("at the desk: %+v", o)
	}
	do(t, s, relay.AtDesk{Action: "to-live"})
	if o := s.Show.OpinionAtDesk(); o != nil {
		t.Errorf("in the game, which nobody has judged: %+v", o)
	}
}
