package tell

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// after returns a filter with White's times.
func after(t testing.TB, text string, spent ...int) Filter {
	t.Helper()
	list := game(New(control(t, text)), spent, nil)
	return list[len(list)-1]
}

// fill returns n times of spent seconds.
func fill(n, spent int) []int { return slices.Repeat([]int{spent}, n) }

// Levels and limits of the project notes on move times, section 4; the band of 25 %
// in which a level stays from the same.
func TestTroubleLevels(t *testing.T) {
	f := after(t, "900+10", 2, 2, 2)
	tests := []struct {
		left time.Duration
		was  int
		want int
		says string
	}{
		{900 * sec, 0, 0, ""},
		{59 * sec, 0, 2, "0:59 on the clock, below 1:00"},
		{61 * sec, 0, 1, "a move, where the control is meant for 32 s"},
		{74 * sec, 2, 2, "1:14 on the clock, hardly above 1:00"},
		{76 * sec, 2, 1, "a move, where the control is meant for 32 s"},
		{19 * sec, 0, 3, "0:19 on the clock, below 20 s"},
		{24 * sec, 3, 3, "0:24 on the clock, hardly above 20 s"},
		{26 * sec, 3, 2, "0:26 on the clock, below 1:00"},
		{-5 * sec, 0, 3, "0:00 on the clock"},
		{900 * sec, 3, 0, ""},
	}
	for _, tt := range tests {
		got := f.Trouble(clock.White, tt.left, tt.was)
		if got.Level != tt.want || !strings.Contains(got.Reason, tt.says) || (tt.says == "") != (got.Reason == "") {
			t.Errorf("%v left, was %d: level %d, %q; want %d, %q", tt.left, tt.was, got.Level, got.Reason, tt.want, tt.says)
		}
	}
}

// Budgets by hand: clock / max(15, 40 - own moves) + increment; level 1 below half
// of base/40 + increment. At 10+5 after three moves the bound is a clock of 185 s.
func TestTroubleBudget(t *testing.T) {
	f := after(t, "600+5", 2, 2, 2)
	if got := f.Trouble(clock.White, 370*sec, 0); got.Budget != 15*sec || got.Level != 0 {
		t.Errorf("370 s: budget %v, level %d; want 15 s, 0", got.Budget, got.Level)
	}
	for left, want := range map[time.Duration]int{184 * sec: 1, 186 * sec: 0} {
		if got := f.Trouble(clock.White, left, 0); got.Level != want {
			t.Errorf("%v: level %d, want %d", left, got.Level, want)
		}
	}
	if got := after(t, "600+5", fill(38, 2)...).Trouble(clock.White, 75*sec, 0); got.Budget != 10*sec {
		t.Errorf("75 s after 38 moves: budget %v, want 10 s", got.Budget)
	}
	g := after(t, "40/7200:3600", 60, 60)
	got := g.Trouble(clock.White, 380*sec, 0)
	if got.ToControl != 38 || got.Budget != 10*sec || got.Level != 1 || !strings.Contains(got.Evidence, "38 moves to the control") {
		t.Errorf("40 moves: %+v", got)
	}
}

// The forecast by hand: 10+5, eight moves of 30 s. Prior mean 16.06 s and deviation
// 24.6 s (TestForecastPrior); mean (8*16.06+240)/16 = 23.03, variance
// (8*24.6^2+8*6.97^2)/16 = 326.9, sd 18.1. Drift -18.03, so with 240 s left
// z = (60-240+180.3)/(18.1*3.162) = .005 and the chance .50. The limit is 9.98 moves
// away; the band of Projection, 1.45 down and .95 up in units of 18.1 * sqrt(n +
// n*n/3.2), meets it after 4.88 moves and 23.13. The other cases are worked out in the
// same way by a script; where the upper end falls no more there is no last move.
func TestForecast(t *testing.T) {
	f := after(t, "600+5", fill(8, 30)...)
	got := f.Trouble(clock.White, 240*sec, 0)
	if math.Abs(got.Chance-.502) > .005 || got.Level != 1 || !got.Forecast {
		t.Errorf("got chance %.4f, level %d; want .50, 1", got.Chance, got.Level)
	}
	if got.AtMove != 18 || got.From != 13 || got.To != 32 {
		t.Errorf("date: move %d (%d to %d), want 18 (13 to 32)", got.AtMove, got.From, got.To)
	}
	if !strings.Contains(got.Reason, "below 1:00 within 10 moves: 50 in 100") {
		t.Errorf("reason %q", got.Reason)
	}
	uneven := after(t, "600+5", 5, 5, 5, 5, 5, 5, 5, 200).Trouble(clock.White, 340*sec, 0)
	if math.Abs(uneven.Chance-.2536) > .001 || uneven.AtMove != 24 || uneven.From != 12 || uneven.To < 1000 {
		t.Errorf("one long think: chance %.4f, move %d (%d to %d); want .2536, 24 (12 to no end)", uneven.Chance, uneven.AtMove, uneven.From, uneven.To)
	}
	toControl := after(t, "40/7200:3600", fill(38, 150)...).Trouble(clock.White, 1000*sec, 0)
	if math.Abs(toControl.Chance-.4854) > .001 || toControl.AtMove != 0 {
		t.Errorf("two moves before the control: chance %.4f, move %d; want .4854 for two moves and no date", toControl.Chance, toControl.AtMove)
	}
	early := after(t, "600+5", fill(7, 30)...).Trouble(clock.White, 240*sec, 0)
	if near := after(t, "600+5", fill(7, 60)...).Trouble(clock.White, 200*sec, 0); near.Level != 0 {
		t.Errorf("seven moves of a minute: level %d by a forecast nobody should make", near.Level)
	}
	if early.Forecast || early.Chance != 0 || early.AtMove != 0 || early.Level != 0 {
		t.Errorf("seven timed moves: %+v, want no forecast", early)
	}
	calm := after(t, "600+5", fill(40, 2)...)
	if got := calm.Trouble(clock.White, 600*sec, 0); got.AtMove != 0 && got.AtMove < 80 || got.Level != 0 {
		t.Errorf("2 s a move: %+v, want no date near", got)
	}
}

// Three moves of about the increment with a clock below three of them: section 4.
func TestLivingOnIncrement(t *testing.T) {
	slow := []int{280, 290, 10, 11, 9}
	f := after(t, "600+10", slow...)
	if got := f.Trouble(clock.White, 29*sec, 0); got.Level != 3 || got.Reason != "on the increment: 0:29 on the clock, 10 s more a move" {
		t.Errorf("got level %d, %q", got.Level, got.Reason)
	}
	if got := f.Trouble(clock.White, 31*sec, 0); got.Level != 2 {
		t.Errorf("31 s: level %d, want 2", got.Level)
	}
	if got := after(t, "600+10", 280, 290, 10, 13, 9).Trouble(clock.White, 29*sec, 0); got.Level != 2 {
		t.Errorf("one move of 13 s: level %d, want 2", got.Level)
	}
}

// Limits of short controls shrink, and without a control only limits count; ours.
func TestTroubleOtherControls(t *testing.T) {
	blitz := after(t, "180+2", 1, 1, 1)
	if got := blitz.Trouble(clock.White, 35*sec, 0); got.Level != 2 || got.Limit != 36*sec {
		t.Errorf("3+2 with 35 s: level %d below %v, want 2 below 36 s", got.Level, got.Limit)
	}
	unknown := New(clock.Control{})
	for left, want := range map[time.Duration]int{61 * sec: 0, 59 * sec: 2, 19 * sec: 3} {
		if got := unknown.Trouble(clock.White, left, 0); got.Level != want {
			t.Errorf("unknown control, %v: level %d, want %d", left, got.Level, want)
		}
	}
}

// A bonus and a clock that rose start the forecast anew (section 4).
func TestForecastResets(t *testing.T) {
	f := after(t, "10/600:600", fill(9, 30)...)
	if got := f.sides[0].drift.moves; got != 9 {
		t.Fatalf("before the control: %d moves, want 9", got)
	}
	g := f.Next(Move{Ply: 19, Spent: 30 * sec, Quality: clock.QualityRead, Left: 900 * sec})
	silent := f.Next(Move{Ply: 19, Spent: 30 * sec, Quality: clock.QualityRead})
	rose := f.Next(Move{Ply: 19, Quality: clock.QualityNone, Left: 590 * sec})
	if g.sides[0].drift.moves != 0 || silent.sides[0].drift.moves != 0 || rose.sides[0].drift.moves != 0 {
		t.Errorf("got %d and %d after a bonus, %d after a rise; want 0", g.sides[0].drift.moves, silent.sides[0].drift.moves, rose.sides[0].drift.moves)
	}
}

// The rule of Lead, worked out by hand at 10+5 before a move: a fifth of the base
// is 2 min, budgets are clock/40 + 5 s.
func TestLead(t *testing.T) {
	f := New(control(t, "600+5"))
	tests := []struct {
		white, black time.Duration
		want         bool
		side         clock.Side
	}{
		{600 * sec, 500 * sec, false, 0}, // 1:40
		{100 * sec, 0, false, 0},         // half as much again, but 1:40
		{600 * sec, 300 * sec, true, clock.White},
		{300 * sec, 600 * sec, true, clock.Black},
		{600 * sec, 420 * sec, false, 0}, // 3 min, but 20 s a move against 15.5 s
		{0, 0, false, 0},
	}
	for _, tt := range tests {
		got, ok := f.Lead([2]time.Duration{tt.white, tt.black}, false)
		if ok != tt.want || got.Side != tt.side || (ok && got.By != (tt.white-tt.black).Abs()) {
			t.Errorf("%v against %v: %+v, %v", tt.white, tt.black, got, ok)
		}
	}
	if _, ok := f.Lead([2]time.Duration{560 * sec, 450 * sec}, true); ok {
		t.Error("1:50 ahead of a lead of two minutes with nearly equal budgets: still a lead")
	}
	near := [2]time.Duration{600 * sec, 370 * sec}
	if _, ok := f.Lead(near, false); ok {
		t.Errorf("%v is a lead already; the next check shows nothing", near)
	}
	if _, ok := f.Lead(near, true); !ok {
		t.Errorf("%v: a lead that stood does not stand a little below its limits", near)
	}
	got, _ := f.Lead([2]time.Duration{300 * sec, 600 * sec}, false)
	if got.Reason != "black is 5:00 ahead on the clock" || got.Evidence != "budget 20 s a move against 12 s; worth 15 moves" || got.Moves != 15 {
		t.Errorf("words: %q, %q", got.Reason, got.Evidence)
	}
	if _, ok := New(clock.Control{}).Lead([2]time.Duration{600 * sec, 0}, true); ok {
		t.Error("unknown control: a lead, want none")
	}
}
