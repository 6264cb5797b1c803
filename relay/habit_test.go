package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

func withHabit(s *relaytest.Stage, name string, games int) relay.ReferenceAnswered {
	return relay.ReferenceAnswered{At: s.Now, Board: 1, Habits: []relay.KnownHabit{{
		Side: clock.White, Name: name, Habit: relay.Habit{Games: games, Prepared: [3]int{8, 11, 14}},
	}}}
}

// TestHabit: a habit is asked once for a player and told from ten games on.
func TestHabit(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{White: "Weiss, Wanda", Control: "900+10", Moves: "e4"}
	s.Take(game.PGN())
	if asked := s.Board(1).UnansweredHabits(); len(asked) != 2 || asked[0].Name != "Weiss, Wanda" || asked[0].Class != clock.ClassRapid {
		t.Fatalf("asks %+v", asked)
	}
	s.Apply(withHabit(s, "Somebody, Else", 40))
	if s.Board(1).Habits[0] != nil {
		t.Error("the habit of somebody else was taken")
	}
	s.Apply(withHabit(s, "Weiss, Wanda", 9))
	if asked := s.Board(1).UnansweredHabits(); len(asked) != 1 || s.Board(1).Habits[0].Told() {
		t.Errorf("asks %+v; told after 9 games: %v", asked, s.Board(1).Habits[0].Told())
	}
	game.White = "Weisz, Wanda"
	s.Take(game.PGN())
	s.Apply(withHabit(s, "Weisz, Wanda", 10))
	few := relay.Habit{Games: 10, Spent: []relay.Usual{{Move: 2, Games: 10}, {Move: 3, Games: 9}}}
	if _, ok := few.SpentOn(2); !ok {
		t.Error("ten games tell nothing of move 2")
	}
	if _, ok := few.SpentOn(3); ok {
		t.Error("nine games tell of move 3")
	}
	if h := s.Board(1).Habits[0]; !h.Told() || h.Prepared[1] != 11 {
		t.Errorf("after the name was corrected: %+v", h)
	}
}

// TestHabitOfOtherClass: when the time control is corrected, the habit at the other pace is
// asked for and takes the place of the first, and a late answer at the old pace is dropped.
func TestHabitOfOtherClass(t *testing.T) {
	s := relaytest.NewStage()
	game := relaytest.Game{White: "Weiss, Wanda", Control: "180+2", Moves: "e4"}
	s.Take(game.PGN())
	atPace := func(class clock.Class, games int) relay.ReferenceAnswered {
		e := withHabit(s, "Weiss, Wanda", games)
		e.Habits[0].Class = class
		return e
	}
	s.Apply(atPace(clock.ClassBlitz, 80))
	game.Control = "5400+30"
	s.Take(game.PGN())
	if asked := s.Board(1).UnansweredHabits(); len(asked) != 2 || asked[0].Class != clock.ClassStandard {
		t.Fatalf("asks %+v", asked)
	}
	s.Apply(atPace(clock.ClassStandard, 12))
	s.Apply(atPace(clock.ClassBlitz, 80))
	if h := s.Board(1).Habits[0]; h.Games != 12 {
		t.Errorf("the habit is of %d games, want the 12 at the pace of the game", h.Games)
	}
}

// TestHabitInEvidence: what is usual stands behind "out of preparation".
func TestHabitInEvidence(t *testing.T) {
	s := relaytest.NewStage()
	moves := strings.Fields("e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Na5 Bc2 c5")
	left := [2]time.Duration{15 * time.Minute, 15 * time.Minute}
	game := relaytest.Game{Control: "900+10"}
	for i := range moves {
		spent := 2 * time.Second
		if i >= 14 && i%2 == 0 { // one think may be a pause, two are none
			spent = 2 * time.Minute
		}
		left[i%2] += 10*time.Second - spent
		game.Clocks = append(game.Clocks, "0:"+clock.Format(left[i%2]))
		game.Moves = strings.Join(moves[:i+1], " ")
		s.Take(game.PGN())
		if i == 0 {
			s.Apply(withHabit(s, "Weiss, Wanda", 34))
		}
		if a, ok := alertOf(s.Board(1), relay.AlertLeftPreparation); ok {
			if want := "2:00 on move 8; usually 11 moves of preparation (8 to 14 in half of 34 games)"; a.Say.Evidence != want {
				t.Errorf("evidence %q, want %q", a.Say.Evidence, want)
			}
			return
		}
	}
	t.Error("two long thinks did not end the preparation")
}
