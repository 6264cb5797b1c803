package relay_test

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/desk"
	"clocktell/relay/relaytest"
)

// deskStage is a stage with two games, a few moves on.
func deskStage(t *testing.T) *relaytest.Stage {
	t.Helper()
	s := relaytest.NewStage()
	s.Record = true
	s.Take(relaytest.Packet(
		relaytest.Game{White: "Orsolic, Dana", Black: "Pellinen, Timo", Round: "1", Control: "600+5", Moves: "e4 e5 Nf3"},
		relaytest.Game{White: "Quaas, Birte", Black: "Rimaru, Sorin", Round: "1", Control: "600+5", Moves: "d4"}))
	if len(s.Show.Boards) != 2 {
		t.Fatalf("%d boards", len(s.Show.Boards))
	}
	return s
}

// TestDeskIsAFold: what was done at the desk, done again with everything else, leads to
// the same desk.
func TestDeskIsAFold(t *testing.T) {
	s := deskStage(t)
	random := rand.New(rand.NewPCG(3, 3))
	moves := strings.Fields("e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O")
	done := 0
	for n := range 300 {
		action := desk.Actions[random.IntN(len(desk.Actions))].Name
		act := relay.AtDesk{Action: action, Board: 1 + random.IntN(2), SAN: moves[random.IntN(len(moves))], To: "e4", Text: "Ada"}
		if s.AtDesk(act) == "" {
			done++
		}
		if n%20 == 0 {
			played := 3 + n/20%12
			s.Take(relaytest.Packet(
				relaytest.Game{White: "Orsolic, Dana", Black: "Pellinen, Timo", Round: "1", Control: "600+5", Moves: strings.Join(moves[:played], " ")},
				relaytest.Game{White: "Quaas, Birte", Black: "Rimaru, Sorin", Round: "1", Control: "600+5", Moves: "d4"}))
		}
	}
	if done < 100 {
		t.Fatalf("only %d acts were done: this shows too little", done)
	}
	again := relay.NewShow(relaytest.Plan(), relaytest.Start)
	for _, e := range s.Events {
		again = again.After(e)
	}
	again = again.AdvancedTo(s.Show.At)
	a, b := *s.Show.Desk, *again.Desk
	if a.Rev != b.Rev || a.Place != b.Place || a.Air != b.Air || !reflect.DeepEqual(a.Shown, b.Shown) || !reflect.DeepEqual(a.Challenge, b.Challenge) ||
		len(a.Lines()) != len(b.Lines()) || !reflect.DeepEqual(a.Marks, b.Marks) {
		t.Errorf("again the desk is\n%+v, was\n%+v", b, a)
	}
	if s.Show.Totals.AtDesk != uint64(done) || again.Totals.AtDesk != uint64(done) {
		t.Errorf("counted %d and %d acts, done were %d", s.Show.Totals.AtDesk, again.Totals.AtDesk, done)
	}
}

// TestDeskActsAreInTheLog: each that was done, with who and what; none that was refused.
func TestDeskActsAreInTheLog(t *testing.T) {
	s := deskStage(t)
	if why := s.AtDesk(relay.AtDesk{Action: "play", SAN: "Nc6", Who: "Ada"}); why != "" {
		t.Fatal(why)
	}
	s.AtDesk(relay.AtDesk{Action: "play", SAN: "Nc6", Who: "Ben"})
	var told []relay.Noted
	for _, n := range s.Show.Log.After(0) {
		if n.Kind == relay.NoteDesk {
			told = append(told, n)
		}
	}
	if len(told) != 1 || told[0].Was != "Ada" || told[0].Is != "play" || told[0].Text != "Play a move Nc6" || told[0].Board != 1 {
		t.Errorf("the log tells %+v", told)
	}
}

// TestQuietFromTheDesk: one switch, whoever turns it.
func TestQuietFromTheDesk(t *testing.T) {
	s := deskStage(t)
	s.AtDesk(relay.AtDesk{Action: "quiet"})
	if !s.Show.Quiet {
		t.Error("the desk's quiet mode is not on")
	}
	s.Enter(relay.ByHand{Act: relay.ActQuiet, Text: "off"})
	if s.Show.Quiet || s.Show.Desk.Quiet {
		t.Errorf("after the producer it is %v, at the desk %v", s.Show.Quiet, s.Show.Desk.Quiet)
	}
}

// TestHiddenFromScenes: while viewers are asked, scenes have the board as it stood, the
// match with it, no sentence about it and nothing of its alerts; everybody else has all.
func TestHiddenFromScenes(t *testing.T) {
	s := deskStage(t)
	show, id := s.Show.ForScenes()
	if show != s.Show || id != 0 {
		t.Fatal("scenes are not sent the show as it is")
	}
	s.AtDesk(relay.AtDesk{Action: "go-to", Ply: 2})
	s.AtDesk(relay.AtDesk{Action: "prepare-challenge"})
	s.AtDesk(relay.AtDesk{Action: "ask"})
	show, id = s.Show.ForScenes()
	b := show.Boards[0]
	if id == 0 || len(b.Plies) != 2 || !b.Secret || !b.Held() || len(b.Alerts) != 0 || b.FEN != s.Show.Desk.Challenge.FEN {
		t.Errorf("scenes have %d plies, secret %v, held %v, %d alerts", len(b.Plies), b.Secret, b.Held(), len(b.Alerts))
	}
	if show.Boards[1] != s.Show.Boards[1] || len(s.Show.Boards[0].Plies) != 3 {
		t.Error("the other board, or everybody else, is shown less")
	}
	s.Enter(relay.ByHand{Board: 1, Act: relay.ActResult, Text: "0-1"})
	if now, _ := s.Show.ForScenes(); now.HeadRev != show.HeadRev || now.Boards[0].Result != "*" || s.Show.Boards[0].Result != "0-1" {
		t.Errorf("the result reaches scenes: %s, revision %d after %d", now.Boards[0].Result, now.HeadRev, show.HeadRev)
	}
	s.AtDesk(relay.AtDesk{Action: "quiet"})
	if now, _ := s.Show.ForScenes(); !now.Quiet || now.HeadRev == show.HeadRev || now.Boards[0].Result != "*" {
		t.Errorf("quiet mode reaches scenes: %v, by revision %d after %d; the result is %s", now.Quiet, now.HeadRev, show.HeadRev, now.Boards[0].Result)
	}
	s.Wait(3 * time.Minute)
	if now, id := s.Show.ForScenes(); now != s.Show || id != 0 || s.Show.Desk.Challenge != nil {
		t.Error("forgotten, the question stays")
	}
}

// TestSuggestions: what happens on a board is suggested, with its reason, the hottest
// first; a board that is over is not.
func TestSuggestions(t *testing.T) {
	s := relaytest.NewStage()
	games := []relaytest.Game{
		{White: "Orsolic, Dana", Black: "Pellinen, Timo", Round: "1", Control: "180+2", Moves: "e4 e5 Nf3", Clocks: []string{"0:03:01", "0:03:01", "0:03:02"}},
		{White: "Quaas, Birte", Black: "Rimaru, Sorin", Round: "1", Control: "600+5", Moves: "d4", Clocks: []string{"0:10:03"}},
	}
	s.Take(relaytest.Packet(games...))
	if hot := s.Show.Desk.Hot; len(hot) != 0 {
		t.Fatalf("at the start %v burns", hot)
	}
	s.Same(170 * time.Second)
	hot := s.Show.Desk.Hot
	if len(hot) == 0 || hot[0].Board != 1 || hot[0].Reason == "" || !strings.Contains("flagNear timeTrouble", hot[0].Kind) {
		t.Fatalf("with seconds left on board 1, suggested are %+v", hot)
	}
	s.Enter(relay.ByHand{Board: 1, Act: relay.ActResult, Text: "1-0"})
	for _, h := range s.Show.Desk.Hot {
		if h.Board == 1 {
			t.Errorf("a game that is over is suggested: %+v", h)
		}
	}
}
