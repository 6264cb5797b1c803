package relay_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
	"clocktell/relay/prompt"
	"clocktell/relay/relaytest"
)

// opinionOn builds an opinion on a position from lines such as "30 e4 e5", in hundredths from
// White's view, the first of them first at every depth.
func opinionOn(p *bitboard.Position, depth int, lines ...string) opinion.Opinion {
	o := opinion.Opinion{Engine: "made up", Depth: depth, Final: true}
	for _, text := range lines {
		words := strings.Fields(text)
		line := opinion.Line{Depth: depth}
		if rest, mate := strings.CutPrefix(words[0], "#"); mate {
			fmt.Sscan(rest, &line.Score.Mate)
		} else {
			fmt.Sscan(words[0], &line.Score.Centipawns)
		}
		at := *p
		for _, san := range words[1:] {
			m, err := at.ParseSAN(san)
			if err != nil {
				panic(text + ": " + err.Error())
			}
			line.Moves = append(line.Moves, m)
			at.Make(m)
		}
		o.Lines = append(o.Lines, line)
	}
	for d := 1; d <= depth; d++ {
		o.Steps = append(o.Steps, opinion.Step{Depth: d, First: o.Lines[0].First(), Score: o.Lines[0].Score})
	}
	return o
}

// answered lets the engine answer on the position after so many plies of board 1, at once.
func answered(s *relaytest.Stage, ply, depth int, lines ...string) {
	b := s.Board(1)
	place := b.Place(ply)
	s.Apply(relay.EngineAnswered{At: s.Now, Board: 1, Game: b.Game, Answers: []relay.Judged{{Ply: ply, Place: place.Hash(), Opinion: opinionOn(place, depth, lines...)}}})
}

// engineSays returns the sentences of the engine that stand on the panel.
func engineSays(s *relaytest.Stage) []string {
	var out []string
	for _, item := range s.Show.Said.Items {
		if item.Kind == prompt.KindEngine && item.Withdrawn.IsZero() {
			out = append(out, item.Text)
		}
	}
	return out
}

func wantEngine(t *testing.T, s *relaytest.Stage, when string, want ...string) {
	t.Helper()
	if got := engineSays(s); !slices.Equal(got, want) {
		t.Errorf("%s: %q stand, want %q", when, got, want)
	}
}

// The game that turns with Black's second move.
const (
	turning = "e4 e5 Nf3 f6 Nxe5 fxe5 Qh5+"
	turned  = "The move f6 loses: the engine has Weiss winning."
)

// turn plays to the swing.
func turn(s *relaytest.Stage) *told {
	h := &told{stage: s, moves: strings.Fields(turning)}
	for ply := 1; ply <= 4; ply++ {
		h.tell(ply)
		switch ply {
		case 3:
			answered(s, 3, 14, "20 Nc6 Bb5", "30 Nf6 Nxe5", "40 d6 d4")
		case 4:
			answered(s, 4, 14, "320 Nxe5 fxe5 Qh5+ Ke7 Qxe5+", "160 Bc4 d6", "90 d4 exd4")
		}
	}
	return h
}

// TestSwingIsPrompt: a move that turned the game becomes a prompt with figures and squares, a
// takeback withdraws it, and so do two plies and an opinion that goes deeper and differs.
func TestSwingIsPrompt(t *testing.T) {
	s := relaytest.NewStage()
	h := turn(s)
	wantEngine(t, s, "with the swing", turned)
	item := s.Show.Said.Items[0]
	evidence := "from White's view: +0.20 before with 2...Nc6 3.Bb5 (depth 14), +3.20 after 2...f6 3.Nxe5 fxe5 4.Qh5+ Ke7 5.Qxe5+ (depth 14)"
	marks := []prompt.Mark{{Kind: prompt.MarkLook, To: "f6"}, {Kind: prompt.MarkPlan, From: "b8", To: "c6"}}
	if item.Evidence != evidence || !slices.Equal(item.Marks, marks) || item.Priority != prompt.Now || item.Alert.Side != "black" || item.Alert.Ply != 4 || item.Alert.Kind != relay.AlertSwing {
		t.Errorf("%+v", item)
	}
	h.tell(5)
	wantEngine(t, s, "a ply later", turned)
	h.tell(6)
	wantEngine(t, s, "two plies later")

	s = relaytest.NewStage()
	turn(s).tell(3)
	s.Same(12 * time.Second) // so long a feed is not believed that goes back
	if got := engineSays(s); slices.Contains(got, turned) {
		t.Errorf("taken back: %q stand", got)
	}

	s = relaytest.NewStage()
	turn(s)
	answered(s, 4, 20, "60 Bc4 d6", "50 Nxe5 fxe5")
	wantEngine(t, s, "on a deeper look")

	plan := relaytest.Plan()
	plan.Language = "de"
	s = relaytest.NewStageOf(plan)
	turn(s)
	wantEngine(t, s, "in German", "Der Zug f6 verliert: Laut Engine steht Weiss auf Gewinn.")
}

// TestSwingBeforeAnybodyListened: what happened before the game was found is no news.
func TestSwingBeforeAnybodyListened(t *testing.T) {
	s := relaytest.NewStage()
	h := &told{stage: s, moves: strings.Fields(turning)}
	h.tell(4)
	answered(s, 3, 14, "20 Nc6 Bb5", "30 Nf6 Nxe5")
	answered(s, 4, 14, "320 Nxe5 fxe5", "160 Bc4 d6")
	wantEngine(t, s, "found half way")
}

// TestOnlyMoveIsPrompt: the sentence stands until the move comes, points at nothing, and
// whoever finds the move is told to have found it.
func TestOnlyMoveIsPrompt(t *testing.T) {
	s := relaytest.NewStage()
	h := turn(s)
	h.tell(5)
	h.tell(6)
	h.tell(7)
	answered(s, 7, 14, "0 Ke7 Qxe5+", "520 g6 Qxe5+", "700 Ke7 Qxe5+")
	if got := engineSays(s); len(got) != 0 {
		t.Errorf("of two legal moves one is the only one: %q", got)
	}
	answered(s, 6, 14, "0 Qh5+ Ke7", "-330 Nc3 d6", "-350 Bc4 d6")
	wantEngine(t, s, "an answer for what is past", "Weiss has found the only move, says the engine.")

	s = relaytest.NewStage()
	h = turn(s)
	h.tell(5)
	h.tell(6)
	answered(s, 6, 14, "0 Qh5+ Ke7", "-330 Nc3 d6", "-350 Bc4 d6")
	const only = "Only one move holds for Weiss, says the engine."
	wantEngine(t, s, "with the only move", only)
	item := s.Show.Said.Items[0]
	if len(item.Marks) != 0 || item.Priority != prompt.Now || item.Alert.Ply != 7 {
		t.Errorf("%+v", item)
	}
	h.tell(7)
	wantEngine(t, s, "when it has come")
}

// TestRefutedIsPrompt: the recapture that fails, and to what.
func TestRefutedIsPrompt(t *testing.T) {
	s := relaytest.NewStage()
	h := turn(s)
	h.tell(5)
	answered(s, 5, 14, "-20 Qe7 Nf3 Qxe4+", "310 fxe5 Qh5+ Ke7 Qxe5+", "320 d6 Qh5+")
	wantEngine(t, s, "with the recapture to come", "Taking back on e5 fails to queen h5 check, says the engine.", turned)
	marks := []prompt.Mark{{Kind: prompt.MarkPlan, From: "f6", To: "e5"}, {Kind: prompt.MarkDanger, From: "d1", To: "h5"}}
	if item := s.Show.Said.Items[0]; !slices.Equal(item.Marks, marks) {
		t.Errorf("%+v", item)
	}
	h.tell(6)
	wantEngine(t, s, "when it has come")
}

// TestMissedMateIsPrompt: a mate in one that was there.
func TestMissedMateIsPrompt(t *testing.T) {
	s := relaytest.NewStage()
	h := &told{stage: s, moves: strings.Fields("f3 e5 g4 d6")}
	for ply := 1; ply <= 4; ply++ {
		h.tell(ply)
	}
	answered(s, 3, 14, "#-1 Qh4#", "-300 d6 d3")
	answered(s, 4, 14, "-250 d3 Qh4+", "-260 Bg2 Qh4+")
	wantEngine(t, s, "missed", "Noir has missed a mate in one, says the engine.")
}

// TestThinkWithEngine: what the clock and the engine say of a long think is one sentence, and
// the clock's own is not said besides; where the choice is neither hard nor free, only that.
func TestThinkWithEngine(t *testing.T) {
	const wings = "a3 a6 b3 b6 c3 c6 d3 d6 e3 e6 f3 f6 g3 g6 h3 h6 a4 a5 b4 b5 c4 c5"
	for name, test := range map[string]struct {
		moves  string
		ply    int
		lines  []string
		before int // plies of depth up to which another move was first
		want   string
		alone  bool
	}{
		"hard":            {turning, 3, []string{"20 Nc6 Bb5", "160 Nf6 Nxe5", "180 d6 d4"}, 9, "Noir thinks long, and it is hard: the engine sees only one good move.", false},
		"neither":         {turning, 3, []string{"20 Nc6 Bb5", "80 Nf6 Nxe5", "90 d6 d4"}, 5, "", true},
		"free":            {wings, 21, []string{"20 c5 d4", "25 Nd7 Nd2", "30 Ra7 Ra2"}, 0, "Noir thinks long, though the engine has at least three moves as good.", false},
		"free in opening": {wings, 19, []string{"20 b5 d4", "25 Nd7 Nd2", "30 Ra7 Ra2"}, 0, "", true},
		"lost":            {wings, 21, []string{"420 c5 d4", "425 Nd7 Nd2", "430 Ra7 Ra2"}, 0, "", true},
	} {
		s := relaytest.NewStage()
		h := &told{stage: s, moves: strings.Fields(test.moves)}
		for ply := 1; ply < test.ply; ply++ {
			s.Take(relaytest.Game{Moves: strings.Join(h.moves[:ply], " ")}.PGN())
		}
		h.tell(test.ply)
		place := s.Board(1).Place(test.ply)
		o := opinionOn(place, 14, test.lines...)
		for i := range test.before {
			o.Steps[i].First = o.Lines[1].First()
		}
		s.Apply(relay.EngineAnswered{At: s.Now, Board: 1, Answers: []relay.Judged{{Ply: test.ply, Place: place.Hash(), Opinion: o}}})
		s.Same(time.Minute)
		var engine, alone []relay.BoardPrompt
		for _, item := range s.Show.Said.Items {
			switch {
			case item.Kind == prompt.KindEngine:
				engine = append(engine, item)
			case item.Alert.Kind == relay.AlertLongThink:
				alone = append(alone, item)
			}
		}
		if (len(alone) > 0) != test.alone || len(engine) > 1 || (len(engine) == 1) != (test.want != "") {
			t.Fatalf("%s: the clock alone says %+v, with the engine %+v", name, alone, engine)
		}
		if len(engine) == 1 && (engine[0].Text != test.want || !strings.HasPrefix(engine[0].Evidence, "past ")) {
			t.Errorf("%s: %q, %q", name, engine[0].Text, engine[0].Evidence)
		}
		h.tell(test.ply + 1)
		if got := engineSays(s); len(got) != 0 {
			t.Errorf("%s: %q stand when the move has come", name, got)
		}
	}
}
