package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

// TestFlagOfTheSideOnMove: a flag is about to fall only while its clock runs, however
// little it shows while the other side thinks.
func TestFlagOfTheSideOnMove(t *testing.T) {
	white := quickThen(28*time.Second, 11, time.Second) // of 4:47: 7 s left
	p := newPlayed(t, "300", 287*time.Second, 0, [2]pace{white, always(4 * time.Second)})
	near := 0
	p.look = func() {
		b := p.stage.Board(1)
		if _, ok := alertOf(b, relay.AlertFlagNear); ok {
			if near++; b.Turn() != clock.White {
				t.Errorf("ply %d: the flag of a clock that stands is about to fall", p.plies)
			}
		}
	}
	for range 26 {
		p.move()
	}
	if near == 0 {
		t.Error("no flag was near")
	}
}

// TestFlagNearIsNear: with thirty seconds more for every move a slow side's flag is not
// about to fall with most of a minute to go.
func TestFlagNearIsNear(t *testing.T) {
	white := quickThen(300*time.Second, 21, 40*time.Second)
	p := newPlayed(t, "5400+30", 90*time.Minute, 30*time.Second, [2]pace{white, always(30 * time.Second)})
	least := time.Hour
	p.look = func() {
		b := p.stage.Board(1)
		left := b.Left(clock.White, p.stage.Now)
		least = min(least, left)
		if a, ok := alertOf(b, relay.AlertFlagNear); ok && left >= 15*time.Second {
			t.Fatalf("ply %d: %v on the clock, and %q", p.plies, left, a.Say.Text)
		}
	}
	p.left[0] -= 55 * time.Second
	for range 44 {
		p.move()
	}
	if least > 40*time.Second {
		t.Errorf("never below %v: the game shows too little", least)
	}
}

// TestOnTheDelay: of a control with a delay nobody says increment.
func TestOnTheDelay(t *testing.T) {
	plan := relaytest.Plan()
	plan.Feeds[0].Clocks.Delay = clock.Delay{Kind: clock.Simple, Time: 5 * time.Second}
	p := newPlayed(t, "300", 5*time.Minute, 0, [2]pace{})
	p.stage = relaytest.NewStageOf(plan)
	p.paces = [2]pace{quickThen(29*time.Second, 11, 5*time.Second), always(5 * time.Second)}
	p.free = 5 * time.Second
	p.left[0] -= 55 * time.Second
	text := ""
	for range 36 {
		p.move()
		if a, ok := alertOf(p.stage.Board(1), relay.AlertOnIncrement); ok {
			text = a.Say.Text
		}
	}
	if !strings.Contains(text, "on the delay") {
		t.Errorf("said %q", text)
	}
}

// TestToControlIsSaidOnce: the control a side is short of time for is named by its move,
// and that it spends too much is not said beside it in other words.
func TestToControlIsSaidOnce(t *testing.T) {
	white := quickThen(27*time.Second, 12, 32*time.Second)
	p := newPlayed(t, "20/600:600", 10*time.Minute, 0, [2]pace{white, always(5 * time.Second)})
	said := make(map[relay.AlertKind]string)
	p.look = func() {
		for _, item := range p.stage.Show.Said.Items {
			said[item.Alert.Kind] = item.Text
		}
	}
	for range 24 {
		p.move()
	}
	if !strings.Contains(said[relay.AlertToControl], "at move twenty") {
		t.Errorf("of the control was said: %q", said[relay.AlertToControl])
	}
	if text := said[relay.AlertTimeTrouble]; strings.Contains(text, "spending") {
		t.Errorf("and %q", text)
	}
}

// TestNoLongThinkWithoutTime: of a side down to its last seconds a long think is not said.
func TestNoLongThinkWithoutTime(t *testing.T) {
	white := quickThen(3*time.Second, 95, 17*time.Second) // 18 s left of 5:00
	p := newPlayed(t, "300", 5*time.Minute, 0, [2]pace{white, always(time.Second)})
	raised, said := false, false
	p.look = func() {
		_, ok := alertOf(p.stage.Board(1), relay.AlertLongThink)
		raised = raised || ok
		for _, item := range p.stage.Show.Said.Items {
			said = said || item.Alert.Kind == relay.AlertLongThink
		}
	}
	for range 190 {
		p.move()
	}
	if !raised || said {
		t.Errorf("raised %v, said %v", raised, said)
	}
}

// TestNoFlagByMinutes: of clocks that are read in minutes nobody knows the last seconds.
func TestNoFlagByMinutes(t *testing.T) {
	white := quickThen(time.Minute, 10, 20*time.Second)
	p := newPlayed(t, "600", 10*time.Minute, 0, [2]pace{white, always(time.Minute / 2)})
	p.step = time.Minute
	down := false
	p.look = func() {
		b := p.stage.Board(1)
		down = down || b.Left(clock.White, p.stage.Now) < 10*time.Second && b.Coarse()
		if a, ok := alertOf(b, relay.AlertFlagNear); ok {
			t.Fatalf("ply %d: %q", p.plies, a.Say.Text)
		}
	}
	for range 22 {
		p.move()
	}
	if !down {
		t.Error("the estimate never came near zero: the game shows too little")
	}
}
