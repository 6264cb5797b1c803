package tell

import (
	"reflect"
	"testing"

	"clocktell/relay/clock"
)

// A Filter is a value: nothing that is asked of it or comes after it changes it.
func TestPure(t *testing.T) {
	games := game(New(control(t, "600+5")), prepared, alone)
	before := make([][2]Call, len(games))
	for i, f := range games {
		before[i] = [2]Call{f.Call(clock.White), f.Call(clock.Black)}
	}
	again := game(New(control(t, "600+5")), prepared, alone)
	for i, f := range games {
		f.Running(clock.White, 40*sec, Quiet, 30)
		f.Trouble(clock.Black, 20*sec, 1)
		f.Next(Move{Ply: 99, Side: clock.White, Spent: sec, Quality: clock.QualityRead})
		now := [2]Call{f.Call(clock.White), f.Call(clock.Black)}
		if !reflect.DeepEqual(now, before[i]) || !reflect.DeepEqual(again[i], f) {
			t.Fatalf("after %d moves: a filter changed, or the same moves gave another", i)
		}
	}
	c := control(t, "600+5")
	f := New(c)
	c.Periods[0].Increment = 0
	if f.controls[0].Increment(1) != 5*sec {
		t.Error("the filter shares the control's periods with its maker")
	}
}

// The sides are alike: with hazard by ply set aside, Black's call after the same
// times is White's.
func TestSymmetric(t *testing.T) {
	p := standard
	p.hazardSlope, p.lagOther = 0, 0
	f := newFilter(control(t, "600+5"), &p)
	games := game(f, prepared, prepared)
	for move := 1; move <= len(prepared); move++ {
		w, b := games[2*move-1].Call(clock.White), games[2*move].Call(clock.Black)
		b.Ply, b.Since = w.Ply, w.Since
		if !reflect.DeepEqual(w, b) {
			t.Errorf("move %d:\nwhite %+v\nblack %+v", move, w, b)
		}
	}
}
