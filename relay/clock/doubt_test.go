package clock

import (
	"testing"
	"time"
)

// TestTotalsAreChecked: egt beside clk is held against it, unless moves are missing.
func TestTotalsAreChecked(t *testing.T) {
	c := control(t, "600+5")
	prev := Timed{Left: 500 * sec, Used: 110 * sec, LeftQuality: QualityRead, SpentQuality: QualityRead}
	r := clk(480 * sec) // 25 s spent, so 135 s in all
	for total, want := range map[time.Duration]string{
		135 * sec: "", 137 * sec: "", 138 * sec: "egt grew by 0:28 but the clock says 0:25 was spent",
		100 * sec: "egt 1:40 is below the 1:50 used before",
	} {
		r.Total = Value{total, true}
		if got := c.After(prev, 5, r, Value{}); got.Doubt != want || got.Spent != 25*sec {
			t.Errorf("egt %v: got %+v, want doubt %q", total, got, want)
		}
	}
	prev.Gaps = true
	r.Total.D = 300 * sec
	if got := c.After(prev, 5, r, Value{}); got.Doubt != "" || got.Gaps || got.Used != 300*sec {
		t.Errorf("after a gap: %+v", got)
	}
	if got := c.After(prev, 5, Reading{}, Value{}); !got.Gaps {
		t.Errorf("a move without a word closes a gap: %+v", got)
	}
}

// TestRepeatedReading: a clock that only stands there again is no reading; the receipts
// tell. One that may well be the same is.
func TestRepeatedReading(t *testing.T) {
	c := control(t, "600+5")
	prev := Timed{Left: 500 * sec, Used: 110 * sec, LeftQuality: QualityRead, SpentQuality: QualityRead}
	got := c.After(prev, 5, clk(500*sec), Value{45 * sec, true})
	want := Timed{Left: 460 * sec, Spent: 45 * sec, Used: 155 * sec, LeftQuality: QualityEstimated, SpentQuality: QualityEstimated,
		Doubt: "clock repeats 8:20, but the move took about 0:45"}
	if got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if got := c.After(prev, 5, clk(500*sec), Value{20 * sec, true}); got.Doubt != "" || got.Spent != 5*sec {
		t.Errorf("within what receipts can tell: %+v", got)
	}
	minutes := c
	minutes.Reads.Step = time.Minute
	if got := minutes.After(prev, 5, clk(500*sec), Value{75 * sec, true}); got.Doubt != "" {
		t.Errorf("the same minute again: %+v", got)
	}
	if got := minutes.After(prev, 5, clk(500*sec), Value{81 * sec, true}); got.Doubt == "" {
		t.Errorf("more than a minute, and the same again: %+v", got)
	}
	guess := prev
	guess.LeftQuality = QualityEstimated
	if got := c.After(guess, 5, clk(500*sec), Value{45 * sec, true}); got.Doubt != "" || got.Left != 500*sec || got.LeftQuality != QualityRead {
		t.Errorf("it happens to be what was estimated: %+v", got)
	}
	if got := c.After(want, 6, clk(455*sec), Value{}); got.Spent != 10*sec || got.SpentQuality != QualityDerived {
		t.Errorf("the reading after it: %+v", got)
	}
}

// TestAddedTime: the clock counts (FIDE Laws 2023, 6.10.2), the receipts tell the time.
func TestAddedTime(t *testing.T) {
	prev := Timed{Left: 500 * sec, LeftQuality: QualityRead}
	got := control(t, "600").After(prev, 5, clk(610*sec), Value{10 * sec, true})
	if got.Left != 610*sec || got.LeftQuality != QualityRead || got.Spent != 10*sec || got.SpentQuality != QualityEstimated || got.Doubt != "clock rose by 1:50" {
		t.Errorf("got %+v", got)
	}
}
