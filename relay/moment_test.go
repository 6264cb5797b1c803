package relay_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"clocktell/relay/relaytest"
)

// TestThinkIsToldInSteps: while somebody thinks, time alone makes a revision now and then and not
// every second, for it goes to every page that shows the board: of two minutes a dozen at most,
// and within the first ten seconds, which most thinks do not outlast, one.
func TestThinkIsToldInSteps(t *testing.T) {
	for plies := 10; plies <= 45; plies += 7 {
		s := relaytest.NewStage()
		g := relaytest.Game{Table: "1", Control: "900+10", Moves: moves(plies)}
		for i := range strings.Fields(g.Moves) { // out of preparation from the ninth move on
			left := 900 - 3*(i/2+1) - 7*max(0, i-16)
			g.Clocks = append(g.Clocks, fmt.Sprintf("0:%02d:%02d", left/60, left%60))
		}
		s.Take(relaytest.Packet(g))
		began := s.Board(1).Rev
		revisions := func(d time.Duration) int { s.Same(d); return int(s.Board(1).Rev - began) }
		if n := revisions(9 * time.Second); n > 1 {
			t.Errorf("after %d plies, 9 seconds of a think make %d revisions", plies, n)
		}
		if n := revisions(111 * time.Second); n < 5 || n > 12 {
			t.Errorf("after %d plies, two minutes of a think make %d revisions", plies, n)
		}
	}
}
