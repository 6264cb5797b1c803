package tell

import (
	"testing"
	"time"

	"clocktell/relay/clock"
)

// TestLeadFromUnequalStarts: what a side had more from the start is no lead; only what the
// other has used more counts, and of unequal starts nobody catches up.
func TestLeadFromUnequalStarts(t *testing.T) {
	c := control(t, "900+10")
	c.Starts[clock.White] = clock.Value{D: 30 * time.Minute, OK: true}
	f := New(c)
	if got, ok := f.Lead([2]time.Duration{1800 * sec, 700 * sec}, false); ok {
		t.Errorf("used 3:20 more: %+v", got)
	}
	if _, ok := f.Lead([2]time.Duration{1800 * sec, 500 * sec}, false); !ok {
		t.Error("used 6:40 more of 15:00, where six minutes are worth a word: no lead")
	}
	f = f.Next(Move{Ply: 1, Side: clock.White, Left: 1800 * sec, Quality: clock.QualityRead})
	f = f.Next(Move{Ply: 2, Side: clock.Black, Left: 900 * sec, Quality: clock.QualityRead})
	if got, ok := f.Closing([2]time.Duration{900 * sec, 900 * sec}, false); ok {
		t.Errorf("caught up with a gap that was agreed on: %+v", got)
	}
}

// TestGapAcrossAddedTime: the time added to a clock is neither a lead nor caught up with;
// what the next reading takes back was never added.
func TestGapAcrossAddedTime(t *testing.T) {
	play := func(f Filter, ply int, left time.Duration) Filter {
		return f.Next(Move{Ply: ply, Side: clock.Side((ply + 1) % 2), Left: left, Quality: clock.QualityRead, Spent: sec})
	}
	start := play(play(New(control(t, "600+5")), 1, 600*sec), 2, 300*sec)
	up := play(play(start, 3, 600*sec), 4, 560*sec)
	if got, ok := up.Closing([2]time.Duration{600 * sec, 560 * sec}, false); ok {
		t.Errorf("Black's clock was put up by more than four minutes: %+v", got)
	}
	if got, ok := up.Lead([2]time.Duration{200 * sec, 560 * sec}, false); ok {
		t.Errorf("six minutes, of which 4:15 were given: %+v", got)
	}
	back := play(play(up, 5, 600*sec), 6, 290*sec)
	if back.sides[clock.Black].added != 0 {
		t.Errorf("%v added by a wrong reading", back.sides[clock.Black].added)
	}
	small := play(play(start, 3, 600*sec), 4, 314*sec) // nine seconds more than its increment
	if small.gap.most != 300*sec {
		t.Errorf("the gap of five minutes is %v after a few seconds more", small.gap.most)
	}
}
