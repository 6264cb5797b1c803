package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// saidBy plays plies and returns what was put on the panel, in order, as texts.
func (p *played) saidBy(plies int) []string {
	var out []string
	listed := make(map[string]bool)
	p.look = func() {
		items := p.stage.Show.Said.Items
		for i := len(items) - 1; i >= 0; i-- {
			if key := items[i].Alert.ID + items[i].Alert.At.String(); !listed[key] {
				listed[key] = true
				out = append(out, items[i].Text)
			}
		}
	}
	for range plies {
		p.move()
	}
	return out
}

// TestOpponentStillPrepared: that one side is still in preparation follows on the other's
// leaving it by two moves, and never comes before it, from a clock that runs.
func TestOpponentStillPrepared(t *testing.T) {
	p := newPlayed(t, "900+10", 15*time.Minute, 10*time.Second, [2]pace{always(3 * time.Second), quickThen(3*time.Second, 7, 50*time.Second)})
	text := strings.Join(p.saidBy(24), "\n")
	left, still := strings.Index(text, "Noir is out of preparation"), strings.Index(text, "Weiss is still in preparation while Noir is thinking.")
	if left < 0 || still < left {
		t.Errorf("said:\n%s", text)
	}
	if strings.Contains(text, "Weiss still plays") {
		t.Errorf("the same of White in other words:\n%s", text)
	}
}

// TestNoFirstThinkAfterAGap: where the time of an earlier move is not known, nobody says
// which long think was the first.
func TestNoFirstThinkAfterAGap(t *testing.T) {
	for _, gap := range []bool{false, true} {
		white := func(own int) time.Duration {
			if own == 9 {
				return 3 * time.Minute
			}
			return 18 * time.Second
		}
		p := newPlayed(t, "900+10", 15*time.Minute, 10*time.Second, [2]pace{white, always(3 * time.Second)})
		p.unseen = 17 // else it is said while it lasts
		if gap {
			p.unheard, p.lost = 10, func(ply int) bool { return ply > 5 && ply < 10 }
		}
		text := strings.Join(p.saidBy(20), "\n")
		if strings.Contains(text, "first long think") == gap {
			t.Errorf("gap %v, said:\n%s", gap, text)
		}
	}
}

// TestQuickFarFromTheNovelty: a quick move is neither preparation nor bluff twenty moves
// behind the new position.
func TestQuickFarFromTheNovelty(t *testing.T) {
	known := map[int]relay.Known{}
	for ply := range 61 {
		known[ply] = relay.Known{}
		if ply < 9 {
			known[ply] = relay.Known{Games: 40}
		}
	}
	white := func(own int) time.Duration {
		if own == 26 {
			return time.Second
		}
		return 15 * time.Second
	}
	look := func(s *relaytest.Stage) { s.Apply(answer(s, known)) }
	got := watched(t, "900+10", 15*time.Minute, 10*time.Second, 56, [2]pace{white, always(20 * time.Second)}, look)
	wantAlert(t, got, relay.AlertQuickUnknown)
}
