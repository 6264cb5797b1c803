package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestOutlook: where the clock is going is told for the next round move, or the control
// where that comes first, with a band around the middle.
func TestOutlook(t *testing.T) {
	for _, test := range []struct {
		control string
		inc     time.Duration
		move    int
	}{{"1500+10", 10 * time.Second, 20}, {"16/1500:600", 0, 16}} {
		var b *relay.Board
		watched(t, test.control, 25*time.Minute, test.inc, 24, [2]pace{always(30 * time.Second), always(20 * time.Second)}, func(s *relaytest.Stage) { b = s.Board(1) })
		for side := range b.Ahead {
			a := b.Ahead[side]
			if a.Move != test.move || !(a.Low < a.Middle && a.Middle < a.High) {
				t.Errorf("%s, side %d: %+v, want move %d inside a band", test.control, side, a, test.move)
			}
		}
		if white, black := b.Ahead[0].Middle, b.Ahead[1].Middle; white >= black {
			t.Errorf("%s: White spends more and is to have %v, Black %v", test.control, white, black)
		}
		lines := strings.Join(b.Outlook(0), "\n")
		if !strings.Contains(lines, "budget ") || !strings.Contains(lines, " at this pace (likely ") {
			t.Errorf("%s: %q", test.control, lines)
		}
	}
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Control: "600", Moves: "e4", Clocks: []string{"0:09:59"}}.PGN())
	if lines := s.Board(1).Outlook(0); len(lines) != 0 {
		t.Errorf("after one ply: %q, want nothing yet", lines)
	}
}
