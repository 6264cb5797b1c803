package clock

import (
	"testing"
	"time"
)

func clk(d time.Duration) Reading { return Reading{Left: Value{d, true}} }

func control(t *testing.T, text string) Control {
	t.Helper()
	c, err := ParseControl(text)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// The sample game of the PGN supplement (draft 2001), section 8, 40/7200:3600:
// its clocks, and its emt of 20:00 that contradicts the clock's 21:00. Times spent
// are the differences of its clocks.
func TestSupplementGame(t *testing.T) {
	c := control(t, "40/7200:3600")
	clocks := [2][]string{{"1:59:01", "1:58:00", "1:37:00"}, {"1:59:32", "1:57:01", "1:54:25"}}
	want := [2][]time.Duration{{59 * sec, 61 * sec, 1260 * sec}, {28 * sec, 151 * sec, 156 * sec}}
	for side := White; side <= Black; side++ {
		now := c.First(side)
		for i, text := range clocks[side] {
			left, err := ParseReading(text)
			if err != nil {
				t.Fatal(err)
			}
			r, doubt := clk(left), ""
			if side == White && i == 2 {
				r.Spent, doubt = Value{1200 * sec, true}, "emt 20:00 but the clock fell by 21:00"
			}
			now = c.After(now, i+1, r, Value{})
			if now.Spent != want[side][i] || now.SpentQuality != QualityRead || now.Doubt != doubt {
				t.Errorf("%v move %d: got %+v, want spent %v and doubt %q", side, i+1, now, want[side][i], doubt)
			}
		}
	}
}

// The rules of After, one by one, each worked out by hand.
func TestAfter(t *testing.T) {
	rapid, unknown := control(t, "600+5"), Control{}
	read := Timed{Left: 500 * sec, Used: 110 * sec, LeftQuality: QualityRead, SpentQuality: QualityRead}
	derived := read
	derived.LeftQuality = QualityDerived
	blind := read
	blind.LeftQuality = QualityNone
	val := func(s int) Value { return Value{time.Duration(s) * sec, true} }
	timed := func(left, spent, used int, lq, sq Quality, doubt string) Timed {
		return Timed{time.Duration(left) * sec, time.Duration(spent) * sec, time.Duration(used) * sec, lq, sq, doubt, false}
	}
	const none, rd, der, est = QualityNone, QualityRead, QualityDerived, QualityEstimated
	tests := []struct {
		name   string
		c      Control
		prev   Timed
		move   int
		r      Reading
		waited Value
		want   Timed
	}{
		{"both read", rapid, read, 5, clk(480 * sec), val(99), timed(480, 25, 135, rd, rd, "")},
		{"after a derived clock", rapid, derived, 5, clk(480 * sec), Value{}, timed(480, 25, 135, rd, der, "")},
		{"after a move without a word", rapid, blind, 5, clk(480 * sec), Value{}, timed(480, 0, 110, rd, none, "")},
		{"rounding", rapid, read, 5, clk(506 * sec), Value{}, timed(506, 0, 110, rd, rd, "")},
		{"time added", rapid, read, 5, clk(545 * sec), Value{}, timed(545, 0, 110, rd, none, "clock rose by 0:40 more than its increment")},
		{"less than the increment", rapid, read, 5, clk(2 * sec), Value{}, timed(2, 0, 110, rd, none, "clock fell by 8:23 with its increment, but only 8:20 was left")},
		{"untimed first move", rapid, rapid.First(White), 1, clk(600 * sec), Value{}, timed(600, 0, 0, rd, none, "")},
		{"first move, other reading", rapid, rapid.First(White), 1, clk(603 * sec), Value{}, timed(603, 2, 2, rd, rd, "")},
		{"first move without increment", control(t, "600"), control(t, "600").First(White), 1, clk(600 * sec), Value{}, timed(600, 0, 0, rd, rd, "")},
		{"emt", rapid, read, 5, Reading{Spent: val(30)}, Value{}, timed(475, 30, 140, der, rd, "")},
		{"emt beyond the clock", rapid, read, 5, Reading{Spent: val(510)}, Value{}, timed(5, 510, 620, der, rd, "emt 8:30 but only 8:20 was left")},
		{"emt two seconds off", rapid, read, 5, Reading{Left: val(480), Spent: val(27)}, Value{}, timed(480, 25, 135, rd, rd, "")},
		{"emt three seconds off", rapid, read, 5, Reading{Left: val(480), Spent: val(28)}, Value{}, timed(480, 25, 135, rd, rd, "emt 0:28 but the clock says 0:25, increment counted")},
		{"egt", rapid, read, 5, Reading{Total: val(140)}, Value{}, timed(475, 30, 140, der, der, "")},
		{"egt falls", rapid, read, 5, Reading{Total: val(100)}, Value{}, timed(500, 0, 110, none, none, "egt 1:40 is below the 1:50 used before")},
		{"egt after a gap", rapid, blind, 5, Reading{Total: val(140)}, Value{}, timed(485, 0, 140, der, none, "")},
		{"receipts", rapid, read, 5, Reading{}, val(30), timed(475, 30, 140, est, est, "")},
		{"receipts beyond the clock", rapid, read, 5, Reading{}, val(900), timed(5, 500, 610, est, est, "")},
		{"nothing", rapid, read, 5, Reading{}, Value{}, timed(500, 0, 110, est, none, "")},
		{"a reading after nothing", rapid, timed(500, 0, 110, est, none, ""), 6, clk(430 * sec), Value{}, timed(430, 0, 110, rd, none, "")},
		{"unknown control, first reading", unknown, unknown.First(White), 1, clk(600 * sec), val(9), timed(600, 0, 0, rd, none, "")},
		{"unknown control, second reading", unknown, read, 2, clk(480 * sec), Value{}, timed(480, 20, 130, rd, rd, "")},
		{"unknown control, rise", unknown, read, 2, clk(505 * sec), Value{}, timed(505, 0, 110, rd, none, "")},
		{"unknown control, emt", unknown, unknown.First(White), 1, Reading{Spent: val(7)}, Value{}, timed(0, 7, 7, none, rd, "")},
		{"unknown control, late egt", unknown, unknown.First(White), 9, Reading{Total: val(70)}, Value{}, timed(0, 0, 70, none, none, "")},
		{"unknown control, receipts", unknown, read, 2, Reading{}, val(30), timed(500, 30, 140, none, est, "")},
		{"hourglass", control(t, "*180"), read, 5, clk(480 * sec), Value{}, timed(480, 20, 130, rd, rd, "")},
		{"control reached", control(t, "40/7200:3600"), read, 40, clk(4040 * sec), Value{}, timed(4040, 60, 170, rd, rd, "")},
	}
	for _, tt := range tests {
		got := tt.c.After(tt.prev, tt.move, tt.r, tt.waited)
		got.Gaps = false // TestTotalsAreChecked
		if got != tt.want {
			t.Errorf("%s:\n got %+v\nwant %+v", tt.name, got, tt.want)
		}
	}
}

func TestWords(t *testing.T) {
	if got, want := QualityEstimated.String()+QualityDerived.String()+QualityRead.String()+QualityNone.String(), "estimatedderivedreadnone"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
