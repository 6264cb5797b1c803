package clock

import (
	"math/rand/v2"
	"testing"
	"time"
)

// table is a pair of clocks kept by the rules themselves, apart from the package:
// what a move takes beyond the delay goes off, increments and new periods are added, and
// an hourglass gives to the other what one uses (PGN 1994, 9.6.1; delays: common
// practice, no source).
type table struct {
	name       string
	text       string
	inc, bonus func(move int) time.Duration
	delay      Delay
	starts     [2]Value
	before     bool // readings are written before the increment
	hourglass  bool
	base       time.Duration
}

func none(int) time.Duration { return 0 }

func always(d time.Duration) func(int) time.Duration {
	return func(int) time.Duration { return d }
}

// at returns d at those moves, and other elsewhere.
func at(d, other time.Duration, moves func(int) bool) func(int) time.Duration {
	return func(move int) time.Duration {
		if moves(move) {
			return d
		}
		return other
	}
}

var tables = []table{
	{name: "sudden death", text: "300", inc: none, bonus: none, base: 300 * sec},
	{name: "increment", text: "600+5", inc: always(5 * sec), bonus: none, base: 600 * sec},
	{name: "increment before", text: "600+5", inc: always(5 * sec), bonus: none, base: 600 * sec, before: true},
	{name: "increment only", text: "0+3", inc: always(3 * sec), bonus: none},
	{name: "moves", text: "20/900", inc: none, bonus: at(900*sec, 0, func(m int) bool { return m%20 == 0 }), base: 900 * sec},
	{name: "two periods", text: "40/7200:3600", inc: none, bonus: at(3600*sec, 0, func(m int) bool { return m == 40 }), base: 7200 * sec},
	{name: "increment from the first move", text: "40/5400+30:1800+30", inc: always(30 * sec), bonus: at(1800*sec, 0, func(m int) bool { return m == 40 }), base: 5400 * sec},
	{name: "increment in the last period", text: "40/7200:20/3600:900+30", inc: at(30*sec, 0, func(m int) bool { return m > 60 }),
		bonus: func(m int) time.Duration {
			return map[int]time.Duration{40: 3600 * sec, 60: 900 * sec}[m]
		}, base: 7200 * sec},
	{name: "increment from move 41, no base", text: "40/3600:0+3", inc: at(3*sec, 0, func(m int) bool { return m > 40 }), bonus: none, base: 3600 * sec},
	{name: "hourglass", text: "*180", inc: none, bonus: none, base: 180 * sec, hourglass: true},
	{name: "simple delay", text: "300", inc: none, bonus: none, base: 300 * sec, delay: Delay{Simple, 3 * sec}},
	{name: "Bronstein delay", text: "300+2", inc: always(2 * sec), bonus: none, base: 300 * sec, delay: Delay{Bronstein, 3 * sec}},
	{name: "Bronstein before", text: "300", inc: none, bonus: none, base: 300 * sec, delay: Delay{Bronstein, 3 * sec}, before: true},
	{name: "armageddon", text: "300", inc: none, bonus: none, base: 300 * sec, starts: [2]Value{{300 * sec, true}, {240 * sec, true}}},
}

// TestNothingIsLost plays legal histories of every kind: the time spent is what was
// spent, never negative, and with what is left makes up all that was granted.
func TestNothingIsLost(t *testing.T) {
	for n, tt := range tables {
		rnd := rand.New(rand.NewPCG(1, uint64(n)))
		for range 300 {
			tt.play(t, rnd)
		}
	}
}

func (tt table) play(t *testing.T, rnd *rand.Rand) {
	c := control(t, tt.text)
	c.Delay, c.Starts, c.Reads.Before = tt.delay, tt.starts, tt.before
	left, now := [2]time.Duration{tt.base, tt.base}, [2]Timed{c.First(White), c.First(Black)}
	for side, start := range tt.starts {
		if start.OK {
			left[side] = start.D
		}
	}
	granted := left
	for ply := range 170 {
		side, move := Side(ply%2), ply/2+1
		spent := time.Duration(rnd.Int64N(int64((left[side]+tt.delay.Time)/sec/8)+2)) * sec
		if spent > left[side]+tt.delay.Time {
			spent = 0
		}
		if cost := max(0, spent-tt.delay.Time); move == 1 && tt.inc(1) > 0 && (cost == tt.inc(1) || tt.before && cost == 0) {
			spent = tt.delay.Time + tt.inc(1) + sec // a first clock that shows its start tells nothing
		}
		written := left[side] - max(0, spent-tt.delay.Time)
		left[side] = written + tt.inc(move) + tt.bonus(move)
		granted[side] += tt.inc(move) + tt.bonus(move)
		if tt.hourglass {
			left[1-side] += spent
		}
		switch {
		case !tt.before:
			written = left[side]
		case tt.delay.Kind == Bronstein:
			written -= min(spent, tt.delay.Time)
		}
		now[side] = c.For(side).After(c.Before(now[side], now[1-side]), move, clk(written), Value{})
		tt.check(t, side, move, spent, left, granted[side], now[side])
	}
}

func (tt table) check(t *testing.T, side Side, move int, spent time.Duration, left [2]time.Duration, granted time.Duration, got Timed) {
	t.Helper()
	if got.Left != left[side] || got.LeftQuality != QualityRead || got.Doubt != "" || got.Spent < 0 {
		t.Fatalf("%s, %v %d: got %+v, want %v left", tt.name, side, move, got, left[side])
	}
	if free := tt.delay.Time; free > 0 && spent <= free {
		if got.SpentQuality != QualityEstimated || got.Spent > free {
			t.Fatalf("%s, %v %d: got %+v for a move inside the delay", tt.name, side, move, got)
		}
		return
	}
	if want := worse(QualityRead, got.SpentQuality); got.Spent != spent || got.SpentQuality != want || want == QualityNone {
		t.Fatalf("%s, %v %d: got %+v, want spent %v", tt.name, side, move, got, spent)
	}
	if tt.delay.Time == 0 && !tt.hourglass && (got.SpentQuality != QualityRead || got.Used+got.Left != granted) {
		t.Fatalf("%s, %v %d: got %+v; used and left must make %v", tt.name, side, move, got, granted)
	}
	if tt.hourglass && (got.SpentQuality != QualityRead || left[0]+left[1] != 2*tt.base) {
		t.Fatalf("%s, %v %d: got %+v, both %v", tt.name, side, move, got, left)
	}
}

// FuzzAfter gives After anything at all: no time is negative, none beyond what can be
// reckoned with, and a contradiction is marked or leaves the time spent unknown.
func FuzzAfter(f *testing.F) {
	const most = int64(1<<63 - 1)
	f.Add("600+5", int64(500*sec), int64(490*sec), int64(0), int64(0), int64(0), 5, uint8(9), uint8(7))
	f.Add("*180", -most-1, most, most, -most, most, 1<<40, uint8(255), uint8(255))
	f.Add("1/1000000+1000000", most, -most-1, most, most, most, -7, uint8(31), uint8(1))
	f.Fuzz(func(t *testing.T, text string, before, left, spent, total, waited int64, move int, known, kinds uint8) {
		c, _ := ParseControl(text)
		has := func(bit uint8) bool { return known&(1<<bit) != 0 }
		c.Delay = Delay{Kind: DelayKind(kinds % 3), Time: time.Duration(waited)}
		c.Starts[White] = Value{time.Duration(total), has(5)}
		c.Reads = Reads{Before: has(6), Step: time.Duration(spent)}
		c.Done = move
		move = min(move, 1000)
		prev := Timed{Left: time.Duration(before), Used: time.Duration(total), LeftQuality: Quality(kinds / 3 % 4), SpentQuality: Quality(kinds / 12 % 4)}
		r := Reading{Value{time.Duration(left), has(0)}, Value{time.Duration(spent), has(1)}, Value{time.Duration(total), has(2)}}
		got := c.For(White).After(c.Before(prev, prev), move, r, Value{time.Duration(waited), has(3)})
		for _, d := range []time.Duration{got.Left, got.Spent, got.Used, c.Running(got.Left, time.Duration(waited)), c.Start()} {
			if d < 0 || d > longest {
				t.Fatalf("%q: %+v", text, got)
			}
		}
		if got.SpentQuality == QualityNone && got.Spent != 0 {
			t.Fatalf("%q: spent %v of no quality", text, got.Spent)
		}
		_, _, _ = c.Class(), c.String(), StepOf([]Reading{r})
	})
}
