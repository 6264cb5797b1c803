package relay_test

import (
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
)

// TestNoLeadAcrossControl: the time that the first side to make the control is given for
// it is no lead while the other has its own move to it still to make, and nothing to be
// caught up with either.
func TestNoLeadAcrossControl(t *testing.T) {
	even := always(20 * time.Second)
	control := "20/900:1800"
	got := watchedFrom(t, control, 15*time.Minute, 20, 30*time.Minute, 60, [2]pace{even, even})
	wantAlert(t, got, relay.AlertClockLead)
	wantAlert(t, got, relay.AlertCatchingUp)
}

// TestLeadAndCatchingUp: that a side has made up half of a gap is not said while the
// other is still said to be well ahead.
func TestLeadAndCatchingUp(t *testing.T) {
	white := quickThen(3*time.Second, 16, 30*time.Second)
	black := quickThen(40*time.Second, 16, 12*time.Second)
	s := newPlayed(t, "900+10", 15*time.Minute, 10*time.Second, [2]pace{white, black})
	lead, closing := false, false
	for range 80 {
		s.move()
		_, leads := alertOf(s.stage.Board(1), relay.AlertClockLead)
		_, closes := alertOf(s.stage.Board(1), relay.AlertCatchingUp)
		lead, closing = lead || leads, closing || closes
		if leads && closes {
			t.Fatalf("after ply %d both stand", s.plies)
		}
	}
	if !lead || !closing {
		t.Errorf("lead %v, catching up %v: the game shows too little", lead, closing)
	}
}

// TestCatchingUpAfterAMove: that a side has made up half of a gap is first said when it has
// moved itself, and by the clocks as they stood then: its own next think may undo what the
// leader's move showed.
func TestCatchingUpAfterAMove(t *testing.T) {
	p := newPlayed(t, "900+10", 15*time.Minute, 10*time.Second, [2]pace{
		quickThen(3*time.Second, 16, 60*time.Second), quickThen(40*time.Second, 16, 12*time.Second),
	})
	first := true
	p.look = func() {
		b := p.stage.Board(1)
		a, ok := alertOf(b, relay.AlertCatchingUp)
		if !ok || !first {
			return
		}
		first = false
		most := 10 * time.Minute // 15 moves of 37 s more
		if gap := b.Last(clock.White).Left - b.Last(clock.Black).Left; a.Side != "black" || b.Turn() != clock.White || gap > most/2 {
			t.Errorf("raised for %s at ply %d, %s to move, with a gap of %v", a.Side, len(b.Plies), b.Turn(), gap)
		}
	}
	for range 60 {
		p.move()
	}
	if first {
		t.Error("never raised: the game shows too little")
	}
}
