package tell

import (
	"testing"
	"time"

	"clocktell/relay/clock"
)

// The flag is near below ten seconds, or below a quick move of its own where that costs
// more and still makes level 3; it stays until 25 % above. Judgement, worked out by hand.
func TestFlagNear(t *testing.T) {
	quick, slow := after(t, "900+10", fill(8, 4)...), after(t, "900+10", 30, 15, 15, 40, 50, 60, 70, 80)
	tests := []struct {
		name string
		f    Filter
		left time.Duration
		was  Trouble
		want bool
		at   time.Duration
	}{
		{"10 s", quick, 10 * sec, Trouble{}, false, 10 * sec},
		{"9.9 s", quick, 9900 * time.Millisecond, Trouble{}, true, 10 * sec},
		{"12 s, was", quick, 12 * sec, Trouble{Level: 3, FlagNear: true}, true, 10 * sec},
		{"12.5 s, was", quick, 12500 * time.Millisecond, Trouble{Level: 3, FlagNear: true}, false, 10 * sec},
		{"19 s, quick moves of 20 s and more", slow, 19 * sec, Trouble{}, true, 20 * sec},
		{"21 s, the same", slow, 21 * sec, Trouble{}, false, 20 * sec},
		{"a minute in all", New(control(t, "60")), 3 * sec, Trouble{}, true, 4 * sec},
		{"unknown control", New(clock.Control{}), 9 * sec, Trouble{}, true, 10 * sec},
	}
	for _, tt := range tests {
		got := tt.f.TroubleAfter(clock.White, tt.left, tt.was)
		if got.FlagNear != tt.want || got.FlagAt != tt.at || (tt.want && got.Level != 3) {
			t.Errorf("%s: near %v below %v at level %d; want %v below %v", tt.name, got.FlagNear, got.FlagAt, got.Level, tt.want, tt.at)
		}
	}
	if got := quick.Trouble(clock.White, 7*sec, 0); got.Reason != "flag near: 0:07 on the clock" {
		t.Errorf("7 s: %q", got.Reason)
	}
	f := after(t, "600+10", 280, 290, 10, 11, 9)
	was := f.TroubleAfter(clock.White, 29*sec, Trouble{})
	if !was.OnIncrement || !f.TroubleAfter(clock.White, 37*sec, was).OnIncrement || f.TroubleAfter(clock.White, 38*sec, was).OnIncrement {
		t.Error("on the increment at 29 s: want that to stay at 37 s and to go at 38 s")
	}
}
