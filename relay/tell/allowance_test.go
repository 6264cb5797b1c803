package tell

import (
	"math"
	"strings"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// delayed returns a control with a delay.
func delayed(t testing.TB, text string, kind clock.DelayKind, d time.Duration) clock.Control {
	c := control(t, text)
	c.Delay = clock.Delay{Kind: kind, Time: d}
	return c
}

// started returns a control with unequal starts.
func started(t testing.TB, text string, white, black time.Duration) clock.Control {
	c := control(t, text)
	c.Starts = [2]clock.Value{{D: white, OK: true}, {D: black, OK: true}}
	return c
}

// Paces by hand: base/40 + increment + delay, base and moves those the side has.
func TestSidePace(t *testing.T) {
	adjourned := started(t, "40/7200:3600", 1800*sec, 600*sec)
	adjourned.Done = 30
	rest := started(t, "3600", 1800*sec, 600*sec)
	rest.Done = 20
	tests := []struct {
		name  string
		c     clock.Control
		move  int
		pace  [2]float64
		start [2]time.Duration
	}{
		{"delay of 5 s", delayed(t, "5400", clock.Simple, 5*sec), 7, [2]float64{140, 140}, [2]time.Duration{5400 * sec, 5400 * sec}},
		{"the same given back", delayed(t, "5400", clock.Bronstein, 5*sec), 7, [2]float64{140, 140}, [2]time.Duration{5400 * sec, 5400 * sec}},
		{"delay and increment", delayed(t, "600+5", clock.Simple, 3*sec), 1, [2]float64{23, 23}, [2]time.Duration{600 * sec, 600 * sec}},
		{"armageddon", started(t, "300", 300*sec, 240*sec), 9, [2]float64{7.5, 6}, [2]time.Duration{300 * sec, 240 * sec}},
		{"adjourned, ten moves to the control", adjourned, 3, [2]float64{180, 60}, [2]time.Duration{1800 * sec, 600 * sec}},
		{"and beyond it", adjourned, 11, [2]float64{90, 90}, [2]time.Duration{1800 * sec, 600 * sec}},
		{"adjourned, no control to come", rest, 1, [2]float64{90, 30}, [2]time.Duration{1800 * sec, 600 * sec}},
	}
	for _, tt := range tests {
		f := New(tt.c)
		for side := range f.sides {
			c := f.of(&f.sides[side])
			if got := f.p.pace(c, tt.move); math.Abs(got-tt.pace[side]) > 1e-9 || f.sides[side].left != tt.start[side] {
				t.Errorf("%s, %v: pace %.3f s from %v, want %.3f from %v", tt.name, clock.Side(side), got, f.sides[side].left, tt.pace[side], tt.start[side])
			}
		}
	}
}

// In an armageddon each side is measured by its own start: a fifth of it makes level 2,
// its clock is above or below that, and half its pace makes level 1.
func TestArmageddon(t *testing.T) {
	f := New(started(t, "300", 300*sec, 240*sec))
	for who, want := range map[clock.Side]time.Duration{clock.White: 60 * sec, clock.Black: 48 * sec} {
		if got := f.Trouble(who, want-sec, 0); got.Level != 2 || got.Limit != want {
			t.Errorf("%v with %v: level %d below %v, want 2 below %v", who, want-sec, got.Level, got.Limit, want)
		}
		if got := f.Trouble(who, want+sec, 0); got.Level == 2 {
			t.Errorf("%v with %v: level 2", who, want+sec)
		}
	}
	black := Move{Ply: 2, Side: clock.Black, Spent: 10 * sec, Quality: clock.QualityRead, Left: 230 * sec}
	if got := strings.Join(f.Next(black).Call(clock.Black).Reasons, "\n"); !strings.Contains(got, "clock 0:10 below its start") {
		t.Errorf("Black with 3:50 of 4:00: %q", got)
	}
	black.Left = 170 * sec
	black.Spent = 70 * sec
	if s := f.Next(black).sides[1]; s.hardlyUsed(&standard, f.p.base(f.controls[1])) {
		t.Error("70 s of four minutes: hardly used, want more than a quarter")
	}
}

// Time inside a delay costs nothing: the clock is not above its start for it, and the
// forecast counts what the clock loses. FIDE Laws 6.3.2 know the mode; that nothing is
// saved up is common practice, no source.
func TestDelayCosts(t *testing.T) {
	f := New(delayed(t, "600", clock.Simple, 5*sec))
	for i, spent := range []time.Duration{3, 5, 9} {
		left := 600*sec - max(0, spent*sec-5*sec)
		f = f.Next(Move{Ply: 1 + 2*i, Spent: spent * sec, Quality: clock.QualityRead, Left: left})
	}
	c, s := f.Call(clock.White), &f.sides[0]
	if c.Spent != 17*sec || c.Gained != -4*sec || s.drift.sum != 4 || s.left != 596*sec {
		t.Errorf("3, 5 and 9 s at a delay of 5 s: spent %v, gained %v, cost %v s; want 17 s, -4 s, 4 s", c.Spent, c.Gained, s.drift.sum)
	}
	if got := f.Trouble(clock.White, 370*sec, 0); got.Budget != 15*sec {
		t.Errorf("370 s for 37 moves: budget %v, want 10 s and the delay", got.Budget)
	}
	if got, _, _, ok := f.Projection(clock.White, 596*sec).At(10); ok {
		t.Errorf("three timed moves: projected to %v, want nothing", got)
	}
}

// A delay makes a move quick or slow as an increment of that length does: the same
// times give the same probability, from preparation and in a think.
func TestDelayPace(t *testing.T) {
	with, alike := New(delayed(t, "600", clock.Bronstein, 5*sec)), New(control(t, "600+5"))
	for i, spent := range []time.Duration{2, 3, 2, 4, 30, 50, 3} {
		m := Move{Ply: 1 + 2*i, Spent: spent * sec, Quality: clock.QualityRead, Left: 500 * sec}
		with, alike = with.Next(m), alike.Next(m)
		if a, b := with.Call(clock.White), alike.Call(clock.White); a.Thinking != b.Thinking || a.Verdict != b.Verdict {
			t.Errorf("move %d: %v at %.4f with the delay, %v at %.4f with the increment", i+1, a.Verdict, a.Thinking, b.Verdict, b.Thinking)
		}
	}
}

// On a delay a side lives whose moves cost hardly anything, however quick they are: the
// bounds of section 4 of the project notes with the delay for the increment.
func TestLivingOnDelay(t *testing.T) {
	c := delayed(t, "600", clock.Simple, 10*sec)
	play := func(spent ...int) Filter {
		list := game(New(c), append([]int{280, 290}, spent...), nil)
		return list[len(list)-1]
	}
	f := play(10, 2, 12)
	got := f.Trouble(clock.White, 29*sec, 0)
	if got.Level != 3 || !got.OnIncrement || got.Reason != "on the delay: 0:29 on the clock, 10 s free a move" {
		t.Errorf("10, 2 and 12 s: level %d, %v, %q", got.Level, got.OnIncrement, got.Reason)
	}
	if got := play(10, 2, 13).Trouble(clock.White, 29*sec, 0); got.OnIncrement {
		t.Error("a move of 13 s at a delay of 10: on the delay")
	}
	if got := f.Trouble(clock.White, 31*sec, 0); got.OnIncrement {
		t.Error("31 s: on the delay, want three of them or less")
	}
}

// Per move nothing is allocated with a delay and unequal starts either.
func TestNextAllocatesNothingDelayed(t *testing.T) {
	c := delayed(t, "600", clock.Simple, 5*sec)
	c.Starts = started(t, "600", 600*sec, 480*sec).Starts
	f, m := New(c), next(30)
	if got := testing.AllocsPerRun(100, func() { f = f.Next(m) }); got != 0 {
		t.Errorf("Next allocates %v times, want 0", got)
	}
}
