package recap

import (
	"slices"
	"strings"
	"testing"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/desk"
	"clocktell/relay/opinion"
	"clocktell/relay/relaytest"
)

// played is a stage with a game on board 1, its moves a second apart, which a watch sees.
func played(t *testing.T, moves string, clocks ...string) (*relaytest.Stage, *Watch) {
	t.Helper()
	s, w := relaytest.NewStage(), NewWatch()
	words := strings.Fields(moves)
	for n := 1; n <= len(words); n++ {
		s.Take(relaytest.Game{Control: "600+5", Moves: strings.Join(words[:n], " "), Clocks: clocks[:min(n, len(clocks))]}.PGN())
		w.See(s.Show)
	}
	return s, w
}

// TestMomentsAreFewAndApart, in games that are hard to draw.
func TestMomentsAreFewAndApart(t *testing.T) {
	for _, g := range trouble(t, "en").Games() {
		moments := g.Moments(&english)
		if len(moments) > momentsMost {
			t.Errorf("%s: %d moments", g.Board.Key.White, len(moments))
		}
		for i, m := range moments {
			if m.Text == "" || m.Plies < 1 || m.Plies > len(g.Board.Plies) {
				t.Errorf("%s: %+v", g.Board.Key.White, m)
			}
			if i > 0 && m.Plies-moments[i-1].Plies < momentsApart {
				t.Errorf("%s: moments at %d and %d", g.Board.Key.White, moments[i-1].Plies, m.Plies)
			}
		}
	}
}

// TestLongestThinks: the longest think of the game is named, and with it the longest of the
// other side; 240 and 100 seconds by hand from the clocks, increment 5 s.
func TestLongestThinks(t *testing.T) {
	_, w := played(t, "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5",
		strings.Fields("0:10:00 0:10:00 0:10:00 0:10:00 0:06:05 0:10:00 0:06:05 0:10:00 0:06:05 0:08:25 0:06:05 0:08:25")...)
	moments := w.Games()[0].Moments(&english)
	texts := func() (out []string) {
		for _, m := range moments {
			out = append(append(out, m.Text), m.Besides...)
		}
		return out
	}()
	for _, want := range []string{"The longest think of the game: 4:00 on 3.Bb5.", "Noir thinks longest here: 1:40 on 5…Be7."} {
		if !slices.Contains(texts, want) {
			t.Errorf("%q is not among %q", want, texts)
		}
	}
}

// TestSwings: a verdict that turns against the mover by a pawn and a half is a moment; one that
// stays, one that turns for the mover, and one that is only a bound are none.
func TestSwings(t *testing.T) {
	s, w := played(t, "e4 e5 Qh5 Ke7 Nf3 d6")
	scores := []opinion.Score{{Centipawns: 30}, {Centipawns: 20}, {Centipawns: 25}, {Centipawns: 10}, {Mate: 1}, {Centipawns: 40}, {Centipawns: -300, Bound: opinion.AtMost}}
	var answers []relay.Judged
	for ply, score := range scores {
		place := s.Show.Boards[0].Place(ply)
		line := opinion.Line{Score: score, Depth: 10, Moves: []bitboard.Move{1}}
		answers = append(answers, relay.Judged{Ply: ply, Place: place.Hash(), Opinion: opinion.Opinion{Lines: []opinion.Line{line}, Depth: 10}})
	}
	s.Apply(relay.EngineAnswered{At: s.Now, Board: 1, Answers: answers})
	w.See(s.Show)
	g := w.Games()[0]
	var got []string
	for _, m := range g.swings(&english) {
		got = append(got, m.Text)
	}
	want := []string{"A second opinion turned: +0.1 before 2…Ke7, White mates in 1 after it.", "A second opinion turned: White mates in 1 before 3.Nf3, +0.4 after it."}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestWatchKeeps: what people did stays known after the show has forgotten it: side lines as
// long as they grew, marks, questions with their answers, and games that made room for others.
func TestWatchKeeps(t *testing.T) {
	s, w := played(t, "e4 e5 Nf3")
	do := func(acts ...relay.AtDesk) {
		t.Helper()
		for _, act := range acts {
			act.Who = "Runa"
			if why := s.AtDesk(act); why != "" {
				t.Fatalf("%s: %s", act.Action, why)
			}
			w.See(s.Show)
		}
	}
	do(relay.AtDesk{Action: "put-on-air"}, relay.AtDesk{Action: "mark-attention", To: "f3"},
		relay.AtDesk{Action: "play", SAN: "d6"}, relay.AtDesk{Action: "play", SAN: "d4"}, relay.AtDesk{Action: "back"},
		relay.AtDesk{Action: "play", SAN: "Bc4"}, relay.AtDesk{Action: "name-line", Text: "quiet"}, relay.AtDesk{Action: "take-off-air"}, relay.AtDesk{Action: "to-live"},
		relay.AtDesk{Action: "prepare-challenge", Text: "What now?", Seconds: 20}, relay.AtDesk{Action: "ask"})
	s.Take(relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3 Nc6"}.PGN())
	w.See(s.Show)
	do(relay.AtDesk{Action: "reveal"}, relay.AtDesk{Action: "end-challenge"})
	s.Take(relaytest.Game{Round: "2", White: "New, Nora", Black: "Other, Otis", Moves: "c4"}.PGN())
	w.See(s.Show)
	g := w.Games()[0]
	if len(g.Lines) != 2 || sanOf(g.Lines[0].Moves) != "d6 d4" || sanOf(g.Lines[1].Moves) != "d6 Bc4" || g.Lines[1].Name != "quiet" {
		t.Errorf("lines %+v", g.Lines)
	}
	if len(g.Marks) != 1 || g.Marks[0].Plies != 3 || g.Marks[0].Marks[0].To != "f3" {
		t.Errorf("marks %+v", g.Marks)
	}
	if len(g.Asked) != 1 || g.Asked[0].Question != "What now?" || sanOf(g.Asked[0].Answer) != "Nc6" {
		t.Errorf("asked %+v", g.Asked)
	}
	if len(w.Games()) != 2 || len(g.Board.Plies) != 4 {
		t.Errorf("%d games, the first of %d plies", len(w.Games()), len(g.Board.Plies))
	}
}

// TestClone: what a copy has stays as it was while its original goes on seeing, and nobody's
// change reaches the other.
func TestClone(t *testing.T) {
	s, w := played(t, "e4 e5 Nf3")
	do := func(acts ...relay.AtDesk) {
		t.Helper()
		for _, act := range acts {
			act.Who = "Runa"
			if why := s.AtDesk(act); why != "" {
				t.Fatalf("%s: %s", act.Action, why)
			}
			w.See(s.Show)
		}
	}
	do(relay.AtDesk{Action: "put-on-air"}, relay.AtDesk{Action: "play", SAN: "d6"})
	c := w.Clone()
	do(relay.AtDesk{Action: "play", SAN: "d4"}, relay.AtDesk{Action: "take-off-air"}, relay.AtDesk{Action: "to-live"}, relay.AtDesk{Action: "prepare-challenge", Seconds: 20}, relay.AtDesk{Action: "ask"})
	s.Take(relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3 Nc6"}.PGN())
	w.See(s.Show)
	was, is := c.Games()[0], w.Games()[0]
	if sanOf(is.Lines[0].Moves) != "d6 d4" || len(is.Asked) != 1 || len(is.Board.Plies) != 4 {
		t.Fatalf("the original has %d questions, %d plies, lines %+v", len(is.Asked), len(is.Board.Plies), is.Lines)
	}
	if sanOf(was.Lines[0].Moves) != "d6" || len(was.Asked) != 0 || len(was.Board.Plies) != 3 {
		t.Errorf("the copy has %d questions, %d plies, lines %+v", len(was.Asked), len(was.Board.Plies), was.Lines)
	}
	c.See(s.Show)
	if len(c.Games()) != 1 || len(was.Board.Plies) != 4 || len(is.Asked) != 1 {
		t.Errorf("the copy, which sees on, has %d games, the first of %d plies", len(c.Games()), len(was.Board.Plies))
	}
}

func sanOf(moves []desk.Step) string {
	var out []string
	for _, m := range moves {
		out = append(out, m.SAN)
	}
	return strings.Join(out, " ")
}

// TestSaidAndUndone: a sentence that was said is told with who said it; one that was undone is not.
func TestSaidAndUndone(t *testing.T) {
	s, w := played(t, "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5",
		strings.Fields("0:10:03 0:10:03 0:10:06 0:10:06 0:06:05 0:10:09 0:06:05 0:10:09 0:06:05 0:08:25 0:06:05 0:08:25")...)
	items := s.Show.Said.Items
	if len(items) < 2 {
		t.Fatalf("only %d sentences to say", len(items))
	}
	for _, item := range items[:2] {
		if why := s.AtPanel(relay.AtPanel{Who: "Maren", Act: relay.PanelSaid, Prompt: item.Key()}); why != "" {
			t.Fatal(why)
		}
		w.See(s.Show)
	}
	if why := s.AtPanel(relay.AtPanel{Who: "Maren", Act: relay.PanelUndo, Prompt: items[0].Key()}); why != "" {
		t.Fatal(why)
	}
	w.See(s.Show)
	said := w.Games()[0].Said
	if len(said) != 1 || said[0].Text != items[1].Text || said[0].By != "Maren" {
		t.Errorf("said %+v, want %q", said, items[1].Text)
	}
}
