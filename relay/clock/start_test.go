package clock

import (
	"strings"
	"testing"
	"time"
)

// Unequal clocks, delays and moves made before, in words and figures, by hand. That a
// delay counts for the class as an increment is common practice, no source.
func TestBesides(t *testing.T) {
	c := control(t, "600")
	c.Delay = Delay{Bronstein, 5 * sec}
	c.Starts[Black] = Value{420 * sec, true}
	if got, want := c.String(), "10 min, Bronstein delay of 5 s, black from 7:00"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if c.For(White).Start() != 600*sec || c.For(Black).Start() != 420*sec || c.First(Black).Left != 420*sec {
		t.Errorf("starts %v and %v", c.For(White).Start(), c.For(Black).Start())
	}
	if c.Class() != ClassRapid || control(t, "600").Class() != ClassBlitz {
		t.Errorf("class %v with five free seconds a move, %v without; want rapid, blitz", c.Class(), control(t, "600").Class())
	}
	c.Starts[White] = Value{4000 * sec, true}
	if c.Class() != ClassStandard {
		t.Errorf("class %v, want that of the longer clock, standard", c.Class())
	}
	same := c
	same.Periods = append([]Period{}, c.Periods...)
	if !c.Same(same) || c.Same(c.For(Black)) || c.Same(control(t, "600")) {
		t.Error("controls are not told apart")
	}
}

// TestAdjourned counts moves on from an adjournment: 16 moves to move 40 of which 24 are made.
func TestAdjourned(t *testing.T) {
	c := control(t, "40/7200:3600")
	c.Done = 24
	if c.MovesToControl(0) != 16 || c.Bonus(16) != 3600*sec || c.Bonus(40) != 0 {
		t.Errorf("%d moves to the control, bonus %v on the 16th, %v on the 40th", c.MovesToControl(0), c.Bonus(16), c.Bonus(40))
	}
}

func TestParseDelay(t *testing.T) {
	if d, err := ParseDelay("simple", 3*sec); err != nil || d != (Delay{Simple, 3 * sec}) {
		t.Errorf("got %v, %v", d, err)
	}
	if d, err := ParseDelay("bronstein", 0); err != nil || d != (Delay{}) {
		t.Errorf("no time: got %v, %v", d, err)
	}
	for kind, d := range map[string]time.Duration{"simple": -1, "bronstein": maxDelay + 1, "other": 0} {
		if _, err := ParseDelay(kind, d); err == nil || (kind == "other") != strings.Contains(err.Error(), `"bronstein"`) {
			t.Errorf("%s, %v: %v", kind, d, err)
		}
	}
}

// FIDE Laws 2023, 6.3.2: in delay mode the main time starts to run after the fixed extra
// time only. A Bronstein clock falls at once (common practice, no source).
func TestRunning(t *testing.T) {
	c := control(t, "300")
	c.Delay = Delay{Simple, 3 * sec}
	tests := []struct {
		kind          DelayKind
		elapsed, want time.Duration
	}{
		{Simple, 2 * sec, 300 * sec}, {Simple, 10 * sec, 293 * sec}, {Simple, 400 * sec, 0},
		{Bronstein, 2 * sec, 298 * sec}, {NoDelay, 2 * sec, 298 * sec}, {NoDelay, -2 * sec, 300 * sec},
	}
	for _, tt := range tests {
		c.Delay.Kind = tt.kind
		if got := c.Running(300*sec, tt.elapsed); got != tt.want {
			t.Errorf("%v after %v: %v, want %v", tt.kind, tt.elapsed, got, tt.want)
		}
	}
}

// A move inside the delay leaves no trace on the clock: the receipts tell, up to the
// delay, or else it is taken to be half of it.
func TestInsideTheDelay(t *testing.T) {
	c := control(t, "300")
	c.Delay = Delay{Simple, 4 * sec}
	for waited, want := range map[Value]time.Duration{{}: 2 * sec, {3 * sec, true}: 3 * sec, {9 * sec, true}: 4 * sec} {
		got := c.After(c.First(White), 1, clk(300*sec), waited)
		if got.Spent != want || got.SpentQuality != QualityEstimated || got.Left != 300*sec || got.LeftQuality != QualityRead {
			t.Errorf("waited %v: %+v, want %v spent", waited, got, want)
		}
	}
	for spent, want := range map[time.Duration]time.Duration{3 * sec: 300 * sec, 10 * sec: 294 * sec} {
		if got := c.After(c.First(White), 1, Reading{Spent: Value{spent, true}}, Value{}); got.Left != want || got.LeftQuality != QualityDerived {
			t.Errorf("emt %v: %+v, want %v left", spent, got, want)
		}
		if got := c.After(c.First(White), 1, Reading{}, Value{spent, true}); got.Left != want || got.LeftQuality != QualityEstimated {
			t.Errorf("waited %v, no reading: %+v, want %v left", spent, got, want)
		}
	}
	if got := c.After(Timed{}, 9, Reading{Total: Value{100 * sec, true}}, Value{}); got.LeftQuality != QualityNone {
		t.Errorf("egt alone, with time that is free: %+v, want no clock", got)
	}
}
