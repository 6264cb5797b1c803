package relay_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

// TestStillPreparedOnce: that a side plays from preparation is said after eight of its own
// moves, of one side only, and its figure is what the clock shows.
func TestStillPreparedOnce(t *testing.T) {
	p := newPlayed(t, "600+10", 10*time.Minute, 10*time.Second, [2]pace{always(2 * time.Second), always(2 * time.Second)})
	said := strings.Join(p.saidBy(14), "\n")
	if strings.Contains(said, "from preparation") {
		t.Errorf("after seven moves:\n%s", said)
	}
	evidence := ""
	p.look = nil
	for range 10 {
		p.move()
		for _, item := range p.stage.Show.Said.Items {
			if item.Alert.Kind == relay.AlertInPreparation && evidence == "" {
				b := p.stage.Board(1)
				evidence = item.Evidence
				if want := "both by " + clock.Format(b.Last(clock.Black).Left-10*time.Minute) + " or more"; !strings.Contains(evidence, want) {
					t.Errorf("evidence %q, want %q", evidence, want)
				}
			}
		}
	}
	sides := 0
	for _, item := range p.stage.Show.Said.Items {
		if item.Alert.Kind == relay.AlertInPreparation {
			sides++
		}
	}
	if sides != 1 {
		t.Errorf("said %d times", sides)
	}
}

// TestPreparedAtOnce: of a game in which both play from preparation when it is first heard
// of, it is said of White, and goes on standing.
func TestPreparedAtOnce(t *testing.T) {
	g := relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Nb8 d4"}
	for ply := range 19 {
		g.Clocks = append(g.Clocks, fmt.Sprintf("0:10:%02d", 2+2*(ply/2)))
	}
	s := relaytest.NewStage()
	s.Take(relaytest.Packet(g))
	for second := range 10 {
		var of []string
		for _, item := range s.Show.Said.Items {
			if item.Alert.Kind == relay.AlertInPreparation && item.Withdrawn.IsZero() {
				of = append(of, item.Alert.Side)
			}
		}
		if len(of) != 1 || of[0] != "white" {
			t.Fatalf("after %d s it stands of %q, want of white", second, of)
		}
		s.Same(time.Second)
	}
}

// TestNotPreparedAfterAThink: of a side that has taken longer on a move than preparation
// takes it is not said that it plays from it.
func TestNotPreparedAfterAThink(t *testing.T) {
	for think, want := range map[time.Duration]bool{10 * time.Second: true, 19 * time.Second: false} {
		white := thinksOf(2*time.Second, map[int]time.Duration{4: think})
		p := newPlayed(t, "600+10", 10*time.Minute, 10*time.Second, [2]pace{white, always(30 * time.Second)})
		text := strings.Join(p.saidBy(22), "\n")
		if strings.Contains(text, "Weiss still plays") || strings.Contains(text, "Weiss is still in preparation") != want {
			t.Errorf("longest %v, said:\n%s", think, text)
		}
	}
}

// TestLeavingShows: a side leaves preparation with a think that listeners would take for
// one, or it is not said; the alert stands all the same.
func TestLeavingShows(t *testing.T) {
	for think, want := range map[time.Duration]bool{24 * time.Second: false, 26 * time.Second: true} {
		white := quickThen(time.Second, 9, think)
		p := newPlayed(t, "600+5", 10*time.Minute, 5*time.Second, [2]pace{white, always(time.Second)})
		raised := false
		said := p.saidBy(16)
		for range 3 {
			said = append(said, p.saidBy(2)...)
			_, ok := alertOf(p.stage.Board(1), relay.AlertLeftPreparation)
			raised = raised || ok
		}
		text := strings.Join(said, "\n")
		if !raised || strings.Contains(text, "Weiss is out of preparation: ") != want {
			t.Errorf("%v: raised %v, said:\n%s", think, raised, text)
		}
	}
}

// TestPreparedAlone: that a clock stands above its start is said of one side only if the other's does not,
// never in a game from a position that was set up, and never of a side that is a piece behind.
func TestPreparedAlone(t *testing.T) {
	const usual, odds = "", "rnbqkbnr/1ppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1"
	for _, test := range []struct {
		fen  string
		left int // seconds that Black loses a move
		want string
	}{
		{usual, 0, "Weiss still plays from preparation"}, {usual, -2, "Both still play from preparation"}, {odds, 0, ""},
	} {
		g := relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3 Nc6 Bb5 h6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 Be6 h3 Nb8 d4"}
		for ply := range 19 {
			left := 10*time.Minute + time.Duration(2+2*(ply/2))*time.Second
			if ply%2 == 1 {
				left = 10*time.Minute - time.Duration(test.left*(1+ply/2))*time.Second
			}
			g.Clocks = append(g.Clocks, clockText(left))
		}
		s := relaytest.NewStage()
		text := relaytest.Packet(g)
		if test.fen != usual {
			text = tagged(text, `SetUp "1"`, fmt.Sprintf(`FEN %q`, test.fen))
		}
		s.Take(text)
		text = ""
		for _, item := range s.Show.Said.Items {
			if item.Alert.Kind == relay.AlertInPreparation {
				text += item.Text
			}
		}
		if (test.want == "") != (text == "") || !strings.HasPrefix(text, test.want) {
			t.Errorf("%+v: said %q", test, text)
		}
	}
}
