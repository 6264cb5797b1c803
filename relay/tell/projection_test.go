package tell

import (
	"math"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// By hand from TestForecast: eight moves of 30 s at 10+5, mean 23.03 s and deviation
// 18.1 s, known as of 16/5 moves. Ten moves on, 240 s have become 240 - 180.3 = 59.7 s;
// the unit of the band is 18.1 * sqrt(10 + 100/3.2) = 116.1 s, 1.45 of which reach below
// nothing and .95 up to 170.0 s. One move on it is 18.1 * sqrt(1 + 1/3.2) = 20.7 s. No
// clock can be above what it would show if nothing were used.
func TestProjection(t *testing.T) {
	f := after(t, "600+5", fill(8, 30)...)
	p := f.Projection(clock.White, 240*sec)
	near := func(got time.Duration, want float64) bool {
		return (got - inSeconds(want)).Abs() < 300*time.Millisecond
	}
	if middle, low, high, ok := p.At(18); !ok || !near(middle, 59.7) || low != 0 || !near(high, 170) {
		t.Errorf("ten moves on: %v (%v to %v), %v; want 59.7 s (0 to 170 s)", middle, low, high, ok)
	}
	if middle, low, high, ok := p.At(9); !ok || !near(middle, 221.97) || !near(low, 191.93) || !near(high, 241.65) {
		t.Errorf("one move on: %v (%v to %v), %v; want 221.97 s (191.93 to 241.65 s)", middle, low, high, ok)
	}
	for _, move := range []int{-3, 0, 8, 309} {
		if _, _, _, ok := p.At(move); ok {
			t.Errorf("move %d is projected", move)
		}
	}
	if _, _, _, ok := after(t, "600+5", fill(7, 30)...).Projection(clock.White, 240*sec).At(18); ok {
		t.Error("seven timed moves are enough for a projection, want eight")
	}
	quick := after(t, "600+5", fill(20, 1)...).Projection(clock.White, 600*sec)
	if _, _, high, ok := quick.At(21); !ok || high > 605*sec {
		t.Errorf("one move at 1 s a move: up to %v, want no more than nothing used", high)
	}
	long := after(t, "40/7200:3600", fill(38, 150)...).Projection(clock.White, 1000*sec)
	if _, _, _, ok := long.At(41); ok || long.To != 40 {
		t.Errorf("beyond the control at move %d: projected", long.To)
	}
	if _, _, _, ok := long.At(40); !ok {
		t.Error("to the control: not projected")
	}
}

// The moves at which the band meets a limit, against going through the moves one by one.
func TestMeets(t *testing.T) {
	for _, tt := range [][4]float64{{180, 18, 20, 16}, {180, 18, 40, 16}, {500, 3, 30, 40}, {50, 60, 5, 9}, {800, 2, 90, 12}} {
		above, fall, spread, weight := tt[0], tt[1], tt[2], tt[3]
		first, last := meets(above, fall, spread, weight)
		off := func(n float64) float64 { return spread * math.Sqrt(n+n*n/weight) }
		walked, late := 0.0, math.Inf(1)
		for n := .0; n < 3000 && math.IsInf(late, 1); n += .001 {
			if walked == 0 && n*fall+off(n) >= above {
				walked = n
			}
			if n*fall-off(n) >= above {
				late = n
			}
		}
		if math.Abs(walked-first) > .002 || math.IsInf(late, 1) != math.IsInf(last, 1) || math.Abs(late-last) > .002 {
			t.Errorf("%v: got %.3f and %.3f, walked %.3f and %.3f", tt, first, last, walked, late)
		}
	}
}
