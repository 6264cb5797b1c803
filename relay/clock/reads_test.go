package clock

import (
	"math/rand/v2"
	"testing"
	"time"
)

// game is a legal game of 10 min + 5 s, written before or after the increment, with
// waiting times that are wrong by up to slack.
func game(rnd *rand.Rand, plies int, before bool, slack time.Duration) (readings []Reading, waited []Value) {
	left := [2]time.Duration{600 * sec, 600 * sec}
	for ply := range plies {
		spent := time.Duration(1+rnd.Int64N(40)) * sec
		if rnd.IntN(3) == 0 {
			spent = time.Duration(rnd.Int64N(3)) * sec
		}
		spent = min(spent, left[ply%2])
		left[ply%2] += 5*sec - spent
		r := clk(left[ply%2])
		if before {
			r.Left.D -= 5 * sec
		}
		readings = append(readings, r)
		waited = append(waited, Value{max(0, spent+time.Duration(rnd.Int64N(int64(2*slack)+1))-slack), ply > 0})
	}
	return readings, waited
}

// TestReadsBeforeIsNeverWrong asks of random games how their clocks are written: it may
// be that nothing shows it, but what is said must be so.
func TestReadsBeforeIsNeverWrong(t *testing.T) {
	c, proven := control(t, "600+5"), [2]int{}
	for seed := range uint64(1000) {
		rnd := rand.New(rand.NewPCG(seed, 3))
		before := seed%2 == 1
		readings, _ := game(rnd, 2+rnd.IntN(160), before, 0)
		got, ok := c.ReadsBefore(readings)
		if ok && got != before {
			t.Fatalf("game %d: said before %v, is %v", seed, got, before)
		}
		proven[seed%2] += index(ok)
	}
	t.Logf("of 500 games each, without emt and egt: %d shown to be read after the increment, %d before", proven[0], proven[1])
	if proven[0] == 0 || proven[1] == 0 {
		t.Errorf("proven %v times: the test sees too little", proven)
	}
}

// What shows how clocks are written, each worked out by hand for 10 min + 5 s.
func TestReadsBefore(t *testing.T) {
	val := func(s int) Value { return Value{time.Duration(s) * sec, true} }
	tests := []struct {
		name           string
		readings       []Reading
		before, proven bool
	}{
		{"above the start on move 1", []Reading{clk(603 * sec)}, false, true},
		{"less than an increment, three times", []Reading{clk(590 * sec), clk(590 * sec), clk(2 * sec), {}, clk(3 * sec), {}, clk(2 * sec)}, true, true},
		{"less than an increment, once", []Reading{clk(590 * sec), clk(590 * sec), clk(2 * sec)}, false, false},
		{"nothing left, three times", []Reading{clk(590 * sec), clk(590 * sec), clk(0), {}, clk(0), {}, clk(0)}, false, false},
		{"nothing", []Reading{clk(590 * sec), clk(590 * sec)}, false, false},
		{"untimed first move", []Reading{{Left: val(600), Spent: val(5)}}, false, false},
		{"emt of 10 s, 10 s off", []Reading{{Left: val(590), Spent: val(10)}}, true, true},
		{"emt of 10 s, 5 s off", []Reading{{Left: val(595), Spent: val(10)}}, false, true},
		{"egt on move 2, with both increments", []Reading{{}, {}, {Left: val(580), Total: val(30)}}, false, true},
		{"egt on move 2, with one", []Reading{{}, {}, {Left: val(575), Total: val(30)}}, true, true},
		{"emt that fits neither", []Reading{{Left: val(590), Spent: val(60)}}, false, false},
		{"one of each", []Reading{clk(603 * sec), clk(590 * sec), clk(2 * sec)}, false, false},
	}
	c := control(t, "600+5")
	for _, tt := range tests {
		if before, proven := c.ReadsBefore(tt.readings); before != tt.before || proven != tt.proven {
			t.Errorf("%s: got %v, %v; want %v, %v", tt.name, before, proven, tt.before, tt.proven)
		}
	}
	for _, text := range []string{"600", "*180", "?", "40/7200:3600"} {
		if _, proven := control(t, text).ReadsBefore([]Reading{clk(99999 * sec)}); proven {
			t.Errorf("%s: shown, though there is no increment", text)
		}
	}
}

// Multiples of the steps, worked out by hand. That a game's first clocks are round
// figures is common practice, no source.
func TestStepOf(t *testing.T) {
	repeat := func(n int, d ...time.Duration) (out []Reading) {
		for range n {
			for _, each := range d {
				out = append(out, clk(each))
			}
		}
		return out
	}
	tests := []struct {
		name     string
		readings []Reading
		want     time.Duration
	}{
		{"none", make([]Reading, 9), 0},
		{"seconds", repeat(1, 599*sec, 598*sec), sec},
		{"tenths", repeat(1, 599*sec, 598*sec+300*time.Millisecond), 100 * time.Millisecond},
		{"hundredths", repeat(1, 598*sec+310*time.Millisecond), time.Millisecond},
		{"minutes", repeat(3, 5400*sec, 5340*sec), time.Minute},
		{"too few", repeat(1, 5400*sec, 5340*sec), sec},
		{"all the same", repeat(9, 5400*sec), sec},
		{"emt counts", []Reading{{Left: Value{600 * sec, true}, Spent: Value{1500 * time.Millisecond, true}}}, 100 * time.Millisecond},
	}
	for _, tt := range tests {
		if got := StepOf(tt.readings); got != tt.want {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}

// TestMinutesDoNotContradict: a clock cut to minutes may seem to rise by less than one.
func TestMinutesDoNotContradict(t *testing.T) {
	c := control(t, "5400+30")
	prev := Timed{Left: 5340 * sec, LeftQuality: QualityRead}
	if got := c.After(prev, 5, clk(5400*sec), Value{}); got.Doubt == "" {
		t.Errorf("in seconds: no doubt in %+v", got)
	}
	c.Reads.Step = time.Minute
	if got := c.After(prev, 5, clk(5400*sec), Value{}); got.Doubt != "" || got.Spent != 0 || got.SpentQuality != QualityRead {
		t.Errorf("in minutes: %+v", got)
	}
}
