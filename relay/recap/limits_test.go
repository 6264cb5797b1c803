package recap

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/desk"
	"clocktell/relay/pgn"
	"clocktell/relay/relaytest"
)

// TestLimits: what is kept of one game has its bounds, and the show goes on past them.
func TestLimits(t *testing.T) {
	_, w := played(t, "e4 e5")
	g := w.Games()[0]
	for i := range saidMost + 5 {
		g.say(Said{Key: fmt.Sprint(i), Text: "x"})
	}
	fen := g.Board.FENAfter(1)
	for i := range linesMost + 5 {
		g.show(&desk.Shown{Ply: 1, FEN: fen, Moves: []desk.Step{{SAN: fmt.Sprint(i)}}}, g.At)
		g.show(&desk.Shown{Ply: i, Marks: []desk.Mark{{To: "e4"}}}, g.At)
	}
	b := *g.Board
	for i := range raisedMost + 5 {
		b.Alerts = append(b.Alerts, relay.Alert{ID: fmt.Sprint(i)})
	}
	w.seeBoard(&b, g.At)
	if len(g.Said) != saidMost || len(g.Lines) != linesMost || len(g.Marks) != linesMost || len(g.Raised) != raisedMost {
		t.Errorf("%d said, %d lines, %d marks, %d raised", len(g.Said), len(g.Lines), len(g.Marks), len(g.Raised))
	}
}

// TestCuts: tag values, and words of comments, are cut to what a line may hold.
func TestCuts(t *testing.T) {
	g := gameOf(t, relaytest.Game{White: strings.Repeat("ü", 400), Moves: "e4"}.PGN())
	out := annotated(g, &english)
	if n := utf8.RuneCountInString(out.Tag("White")); n != tagValueMost {
		t.Errorf("a tag value of %d characters", n)
	}
	for _, w := range strings.Fields(tidy(strings.Repeat("長", 200))) {
		if utf8.RuneCountInString(w) > wordMost {
			t.Errorf("a word of %d characters", utf8.RuneCountInString(w))
		}
	}
	if got := joined([]pgn.Comment{{Text: "a"}, {}, {Text: "b"}}); len(got) != 1 || got[0].Text != "a · b" {
		t.Errorf("joined %+v", got)
	}
}

// TestTellFrom: from which length on thinks are told; a fifteenth of the base time, 40 s of ten
// minutes, within its bounds.
func TestTellFrom(t *testing.T) {
	for control, want := range map[string]string{"600": "0:40", "900+10": "1:00", "60": "0:20", "5400+30": "6:00", "100000": "10:00", "": "1:00"} {
		g := gameOf(t, relaytest.Game{Control: control, Moves: "e4"}.PGN())
		if got := clock.Format(tellFrom(g.Board)); got != want {
			t.Errorf("%q: %s, want %s", control, got, want)
		}
	}
}
