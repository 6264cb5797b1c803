package main

import (
	"fmt"
	"maps"
	"os"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/engine"
	"clocktell/relay/engine/enginetest"
	"clocktell/relay/opinion"
	"clocktell/relay/relaytest"
)

// fourBoards is a stage with three games that go on and one that is over.
func fourBoards(t *testing.T) *relaytest.Stage {
	t.Helper()
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(
		relaytest.Game{White: "Alba, A", Black: "Basil, B", Control: "5400+30", Moves: "e4 e5 Nf3 Nc6"},
		relaytest.Game{White: "Cora, C", Black: "Dario, D", Control: "5400+30", Moves: "d4 d5"},
		relaytest.Game{White: "Elin, E", Black: "Falk, F", Control: "5400+30", Moves: "c4"},
		relaytest.Game{White: "Gita, G", Black: "Hugo, H", Control: "5400+30", Moves: "f3 e5 g4 Qh4#", Result: "0-1"}))
	return s
}

// wished says wishes in short: class, board, ply.
func wished(wishes []engine.Wish) string {
	var out []string
	for _, w := range wishes {
		out = append(out, fmt.Sprintf("%d:%d.%d", w.Class, w.Board, w.Ply))
	}
	return strings.Join(out, " ")
}

// TestWishes: what is asked for, how urgently, and with which moves. The order of the list
// does not matter. The first board is on the air until somebody puts another one there.
func TestWishes(t *testing.T) {
	s := fourBoards(t)
	e := &seconder{live: time.Second, deep: time.Minute}
	atDesk := func(act relay.AtDesk) {
		t.Helper()
		if why := s.AtDesk(act); why != "" {
			t.Fatalf("%s: %s", act.Action, why)
		}
	}
	want := func(when, want string) {
		t.Helper()
		wishes := e.wishes(s.Show)
		if got := wished(wishes); got != want {
			t.Errorf("%s: %s, want %s", when, got, want)
		}
		for _, w := range wishes {
			line, limit := w.Line(), e.live
			end := line.End()
			if w.Class == engine.Deep {
				limit = e.deep
			}
			if w.Ply != relay.OffGame && end.Hash() != s.Board(w.Board).Place(w.Ply).Hash() || !end.HasMove() || w.Limit.Time != limit {
				t.Errorf("%s: %+v ends at %v", when, w, end.FEN())
			}
		}
	}
	const past = "4:1.3 4:1.2 4:1.1 4:1.0 4:2.1 4:2.0 4:3.0 5:4.3 5:4.2 5:4.1 5:4.0"
	want("nobody at the desk", "0:1.4 3:2.2 3:3.1 "+past)
	atDesk(relay.AtDesk{Action: "look-at", Board: 2})
	want("a desk looks at board 2", "1:2.2 0:1.4 3:3.1 "+past)
	atDesk(relay.AtDesk{Action: "back"})
	want("and one move back", "1:2.1 0:1.4 3:2.2 3:3.1 "+past)
	atDesk(relay.AtDesk{Action: "play", SAN: "Nf6"})
	want("and plays another one", "1:2.-1 0:1.4 3:2.2 3:3.1 "+past)
	e.second = true
	want("the engine that is compared", "0:1.4 3:2.2 3:3.1 "+past)
	e.second, e.deep = false, 0
	want("no deep pass", "1:2.-1 0:1.4 3:2.2 3:3.1 "+strings.Split(past, " 5:")[0])
	e.deep = time.Minute
	judge := func(ply int, o opinion.Opinion) {
		s.Apply(relay.EngineAnswered{At: s.Now, Board: 4, Answers: []relay.Judged{{Ply: ply, Place: s.Board(4).Place(ply).Hash(), Opinion: o}}})
	}
	judge(3, opinion.Opinion{Depth: 9, Given: e.deep})
	judge(2, opinion.Opinion{Depth: 9, Given: e.live, Final: true})
	judge(1, opinion.Opinion{Depth: 9, Given: e.deep, Final: true})
	want("one judged deeply", "1:2.-1 0:1.4 3:2.2 3:3.1 "+strings.Replace(past, " 5:4.1", "", 1))
}

// TestPastAtOnce: of a long game the newest of its earlier positions wait first.
func TestPastAtOnce(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(relaytest.Game{Control: "5400+30", Moves: "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5"}))
	e := &seconder{live: time.Second}
	if got, want := wished(e.wishes(s.Show)), "0:1.12 4:1.11 4:1.10 4:1.9 4:1.8 4:1.7 4:1.6 4:1.5 4:1.4"; got != want {
		t.Errorf("%s, want %s, %d of the past", got, want, pastAtOnce)
	}
}

// TestWishesNothingOfAnotherGame: the usual start on a board whose game began elsewhere is not asked
// for, not even when that game is over and all of it would be searched once more.
func TestWishesNothingOfAnotherGame(t *testing.T) {
	for _, result := range []string{"*", "1-0"} {
		s := relaytest.NewStage()
		s.Take("[White \"A\"]\n[Black \"B\"]\n[Result \"" + result + "\"]\n[SetUp \"1\"]\n[FEN \"bqnbrkrn/pppppppp/8/8/8/8/PPPPPPPP/BQNBRKRN w GEge - 0 1\"]\n\n1. e4 e5 " + result + "\n")
		e := &seconder{live: time.Second, deep: time.Minute}
		if got := wished(e.wishes(s.Show)); got != "" || len(s.Show.Boards) != 1 {
			t.Errorf("with the result %s: %s", result, got)
		}
	}
}

// TestOutcomesAreTaken: whatever the show has of a position, if it is asked for again, the show takes
// what comes of that, though another search got deeper before it was stopped: a game was over and
// goes on, or the times were set anew. Or the same would be told, and journalled, without an end.
func TestOutcomesAreTaken(t *testing.T) {
	times := []time.Duration{0, time.Second, 3 * time.Second, 5 * time.Second, 15 * time.Second}
	asked := 0
	for _, given := range times[1:] {
		outcome := opinion.Opinion{Depth: 20, Given: given, Took: time.Second / 10, Final: true}
		for i := range 4 * len(times) * len(times) {
			old := opinion.Opinion{Depth: 20 + i%2, Final: i/2%2 == 1, Given: times[i/4%len(times)], Took: times[i/4/len(times)]}
			if isOutcome(&old, given) {
				continue
			}
			asked++
			if !outcome.Supersedes(&old) {
				t.Errorf("asked again for %v, the show does not take the outcome in place of %+v", given, old)
			}
		}
	}
	if asked < 50 {
		t.Errorf("only %d were asked for again", asked)
	}
}

// TestToldAgain: an outcome that the show lacks is told again after a while, not at once:
// it may be on its way.
func TestToldAgain(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		e := &seconder{told: make(map[string]time.Time)}
		a := engine.Answer{Wish: engine.Wish{Board: 1, Ply: 3, Key: 7}, Opinion: opinion.Opinion{Final: true, Given: time.Second}}
		other := a
		other.Opinion.Given = time.Minute
		got := fmt.Sprint(e.fresh(a), e.fresh(a), e.fresh(other))
		time.Sleep(toldAgain - 1)
		got += fmt.Sprint(" ", e.fresh(a))
		time.Sleep(time.Nanosecond)
		got += fmt.Sprint(" ", e.fresh(a))
		if want := "true false true false true"; got != want {
			t.Errorf("told %s, want %s", got, want)
		}
		for i := range toldMost + 9 {
			a.Wish.Ply = i
			e.fresh(a)
		}
		if len(e.told) > toldMost {
			t.Errorf("%d outcomes are remembered", len(e.told))
		}
	})
}

// TestPastIsToldOnce: of what is past only the outcome reaches the show and its journal; of
// what is played now, every look.
func TestPastIsToldOnce(t *testing.T) {
	events := make(chan relay.Event, 16)
	e := &seconder{told: make(map[string]time.Time), events: events, time: relay.NewTimebase(1)}
	for _, class := range []engine.Class{engine.OnAir, engine.AtDesk, engine.Hot, engine.Newest, engine.Past, engine.Deep} {
		for _, final := range []bool{false, true} {
			e.tell(t.Context(), engine.Answer{Wish: engine.Wish{Board: 1, Ply: int(class), Class: class}, Opinion: opinion.Opinion{Final: final}})
		}
	}
	close(events)
	told := make(map[int]int)
	for event := range events {
		told[event.(relay.EngineAnswered).Answers[0].Ply]++
	}
	if want := map[int]int{0: 2, 1: 2, 2: 2, 3: 2, 4: 1, 5: 1}; !maps.Equal(told, want) {
		t.Errorf("told %v times by class, want %v", told, want)
	}
}

// TestSideLineIsJudged: what a desk plays on its own board comes back with an opinion.
func TestSideLineIsJudged(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	st, file := stationWith(t, func(c *config.Config) {
		c.Engine.Command, c.Engine.Args = self, enginetest.Args("wrong multipv", t.TempDir(), 0)
		c.Engine.Movetime.Duration = 100 * time.Millisecond
	})
	writeGame(t, file, relaytest.Game{Control: "5400+30", Moves: "e4 e5"}, 2)
	waitShow(t, st, func(s *relay.Show) bool { return len(s.Boards) == 1 && s.Boards[0].OpinionAt(2) != nil })
	act := relay.AtDesk{At: st.time.Now(), ID: "one", Who: "Ada", Action: "play", Board: 1, SAN: "Nc3"}
	st.heard <- relay.AtDesk{At: st.time.Now(), ID: "zero", Who: "Ada", Action: "look-at", Board: 1}
	st.heard <- act
	waitShow(t, st, func(s *relay.Show) bool {
		o := s.OpinionAtDesk()
		return s.Desk.Place.Move != 0 && o != nil && o.Final
	})
	s := st.relay.Show()
	if w := s.Wanted()[0]; w.Ply != relay.OffGame || s.OpinionAtDesk().Lines[0].Moves[0] == 0 {
		t.Errorf("at the desk: %+v, %+v", w, s.OpinionAtDesk())
	}
	if f := st.engines[0].figures(); f.Searches == 0 || !f.Running || f.Faults["rubbish"] == 0 || len(f.Faults) != len(engine.Reasons) {
		t.Errorf("figures %+v", f)
	}
}
