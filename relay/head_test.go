package relay_test

import (
	"testing"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestHeadRevision: what is told of all boards together is told anew when there is a board more,
// and not when one is another; and boards are numbered without gaps, however they begin.
func TestHeadRevision(t *testing.T) {
	s := relaytest.NewStage()
	one := relaytest.Game{White: "Orsolic, Dana", Black: "Pellinen, Timo", Table: "1", Moves: "e4 e5 Nf3"}
	two := relaytest.Game{White: "Quaas, Birte", Black: "Rimaru, Sorin", Table: "2", Moves: "d4"}
	ended, renamed := one, two
	ended.Result, renamed.White = "1-0", "Quaas, Berte"
	take := func(games ...relaytest.Game) func() { return func() { s.Take(relaytest.Packet(games...)) } }
	enter := func(e relay.ByHand) func() { return func() { s.Enter(e) } }
	answer := func(r relay.Reference) func() {
		return func() { s.Show = s.Show.After(relay.ReferenceAttached{At: s.Show.At, Reference: r}) }
	}
	for _, test := range []struct {
		what   string
		do     func()
		told   bool
		boards int
	}{
		{"a game begins", take(one), true, 1},
		{"another one, too", take(one, two), true, 2},
		{"the first ends", take(ended, two), false, 2},
		{"a name is another", take(ended, renamed), false, 2},
		{"a result by hand", enter(relay.ByHand{Board: 2, Act: relay.ActResult, Text: "0-1"}), false, 2},
		{"a name by hand", enter(relay.ByHand{Board: 2, Act: relay.ActName, Side: "black", Text: "Rimaru, Corin"}), false, 2},
		{"by hand a board that is not the next", enter(relay.ByHand{Board: 4, Act: relay.ActName, Side: "white", Text: "Hand, H"}), false, 2},
		{"by hand the next", enter(relay.ByHand{Board: 3, Act: relay.ActName, Side: "white", Text: "Hand, H"}), true, 3},
		{"a game behind it", take(ended, renamed, relaytest.Game{White: "Sabel, Ilmar", Black: "Tovik, Aune", Table: "3", Moves: "c4"}), true, 4},
		{"a reference", answer(relay.Reference{Games: 40, Depth: 60}), true, 4},
		{"the same again", answer(relay.Reference{Games: 40, Depth: 60}), false, 4},
	} {
		was := s.Show.HeadRev
		test.do()
		if told := s.Show.HeadRev != was; told != test.told || len(s.Show.Boards) != test.boards {
			t.Errorf("%s: told anew %v, of %d boards, want %v, %d", test.what, told, len(s.Show.Boards), test.told, test.boards)
		}
	}
	for i, b := range s.Show.Boards {
		if b.Number != i+1 {
			t.Errorf("board %d stands in place %d", b.Number, i+1)
		}
	}
}

// TestMatchHiddenFromScenes: while viewers are asked, no score tells them how the game goes on,
// nor does a revision; what else is told of all boards they are told.
func TestMatchHiddenFromScenes(t *testing.T) {
	s := matchStage(duel("1="))
	s.Take(relaytest.Packet(relaytest.Game{White: mira, Black: jonas, Round: "3", Moves: six}))
	for _, action := range []string{"go-to", "prepare-challenge", "ask"} {
		if refused := s.AtDesk(relay.AtDesk{Action: action, Ply: 2}); refused != "" {
			t.Fatal(action, refused)
		}
	}
	asked, id := s.Show.ForScenes()
	rev := s.Show.HeadRev
	s.Enter(relay.ByHand{Board: 1, Act: relay.ActResult, Text: "1-0"})
	if id == 0 || score(s) != "2½–½" || s.Show.HeadRev == rev {
		t.Fatalf("challenge %d; the match stands %s, revision %d after %d", id, score(s), s.Show.HeadRev, rev)
	}
	if now, _ := s.Show.ForScenes(); now.Match != asked.Match || now.HeadRev != asked.HeadRev {
		t.Errorf("scenes are told of the match: %+v, revision %d after %d", now.Match.Stands, now.HeadRev, asked.HeadRev)
	}
	s.Enter(relay.ByHand{Board: 2, Act: relay.ActName, Side: "white", Text: "Hand, H"})
	if now, _ := s.Show.ForScenes(); now.Match != asked.Match || now.HeadRev == asked.HeadRev || len(now.Boards) != 2 {
		t.Errorf("of a board more: the match %+v, revision %d after %d, %d boards", now.Match.Stands, now.HeadRev, asked.HeadRev, len(now.Boards))
	}
}
