package tell

import (
	"math"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// The model with its own constants. Values worked out from the formulas of the
// project notes on move times, section 3, with another library (C's erfc), at 1, 3,
// 10 and 30 s; the same script gives the golden values printed there.
func TestEvidence(t *testing.T) {
	tests := []struct {
		control    string
		reply      Reply
		lag, tempo float64
		want       [4]float64
	}{
		{"600+5", Quiet, 0, 0, [4]float64{-1.962, -.743, 1.195, 3.479}},
		{"600+5", Recapture, 0, 0, [4]float64{-.613, .905, 3.088, 5.584}},
		{"600+5", EvadesCheck, 0, 0, [4]float64{-1.264, .099, 2.159, 4.549}},
		{"600+5", AfterCapture, 0, 0, [4]float64{-1.361, -.019, 2.023, 4.398}},
		{"900+10", Quiet, 0, 0, [4]float64{-2.269, -1.251, .618, 2.974}},
		{"900+10", Recapture, 0, 0, [4]float64{-.672, .193, 1.867, 4.039}},
		{"900+10", EvadesCheck, 0, 0, [4]float64{-.927, -.026, 1.693, 3.905}},
		{"900+10", AfterCapture, 0, 0, [4]float64{-1.238, -.303, 1.459, 3.713}},
		{"?", Quiet, 0, 0, [4]float64{-2.269, -1.251, .618, 2.974}}, // as 15+10
		{"180+2", Quiet, 0, 0, [4]float64{-.827, .254, 2.007, 4.118}},
		{"5400+30", Quiet, 0, 0, [4]float64{-5.577, -3.760, -.953, 2.260}},
		{"40/5400+30:1800+30", Quiet, 0, 0, [4]float64{-5.577, -3.760, -.953, 2.260}}, // same pace
		{"600+5", Quiet, .5016315, 0, [4]float64{-2.873, -1.284, 1.074, 3.741}},
		{"600+5", Quiet, 0, .5 * 6 / 14, [4]float64{-2.130, -1.020, .808, 2.995}},
	}
	for _, tt := range tests {
		e := onReply(earlier(), control(t, tt.control), tt.reply, tt.lag, tt.tempo)
		for i, d := range []time.Duration{1, 3, 10, 30} {
			if got := e.evidence(d*sec, sec); math.Abs(got-tt.want[i]) > .001 {
				t.Errorf("%s reply %d lag %.2f tempo %.2f, %d s: got %.4f, want %.3f", tt.control, tt.reply, tt.lag, tt.tempo, d, got, tt.want[i])
			}
		}
	}
}

// The pull of the moves before, by hand at 10+5: .12 ln(80/8) + .14 ln(40/8) = .5016
// with both known.
func TestLag(t *testing.T) {
	white := Move{Ply: 15, Spent: 40 * sec, Quality: clock.QualityRead}
	black := Move{Ply: 16, Side: clock.Black, Spent: 80 * sec, Quality: clock.QualityRead}
	f, base := newFilter(control(t, "600+5"), earlier()), math.Log(11)
	lag := func(f Filter, ply int) float64 { return f.emission(Move{Ply: ply}).thinking.mean - base }
	tests := []struct {
		name string
		got  float64
		want float64
	}{
		{"none", lag(f, 15), 0},
		{"own", lag(f.Next(white), 17), .2253},
		{"both", lag(f.Next(white).Next(black), 17), .5016},
		{"a move between", lag(f.Next(white).Next(black), 19), 0},
	}
	for _, tt := range tests {
		if math.Abs(tt.got-tt.want) > .0001 {
			t.Errorf("%s: got %.4f, want %.4f", tt.name, tt.got, tt.want)
		}
	}
}

// The side's tempo by the notes: n/(n+8) of its mean residual from the fourth move
// on, .7 at the most either way (same section).
func TestTempo(t *testing.T) {
	tests := []struct {
		moves int
		mean  float64
		want  float64
	}{{3, .5, 0}, {4, .5, .5 * 4 / 12}, {6, .5, .5 * 6 / 14}, {20, 3, .7}, {20, -3, -.7}}
	for _, tt := range tests {
		got := tempo{tt.moves, tt.mean * float64(tt.moves), float64(tt.moves)}.shift(earlier())
		if math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("%d moves, mean %.1f: got %.4f, want %.4f", tt.moves, tt.mean, got, tt.want)
		}
	}
	alone := game(New(control(t, "600+5")), []int{40, 40, 40, 40, 40, 40, 40, 40}, nil)
	if s := alone[8].sides[0]; s.tempo.moves < 4 || s.tempo.shift(&standard) <= 0 {
		t.Errorf("eight moves of 40 s: %+v, want a slow tempo", s.tempo)
	}
}

// Far in either tail the evidence keeps its digits: between whole seconds it must
// keep rising with the time, as it does for a wider log-normal.
func TestTails(t *testing.T) {
	e := onReply(&standard, control(t, "600+5"), Quiet, 0, 0)
	last := e.evidence(5*sec, sec)
	for d := 10 * sec; d < 100*time.Hour; d = d * 3 / 2 {
		got := e.evidence(d, sec)
		if got <= last {
			t.Fatalf("%v: evidence %.6f after %.6f, want it to rise", d, got, last)
		}
		last = got
	}
}

// Only the last moves count, and a place taken again forgets who thought.
func TestPaces(t *testing.T) {
	var p paces
	for range kept {
		p.add(90*sec, true)
	}
	for i := range kept {
		p.add(time.Duration(i+1)*sec, i%2 == 1)
	}
	if got := p.median(kept, false); got != 16500*time.Millisecond {
		t.Errorf("median of 1 to 32 s: got %v, want 16.5 s", got)
	}
	if got := p.median(8, true); got != 25*sec {
		t.Errorf("median of the last eight thought out, 18 to 32 s: got %v, want 25 s", got)
	}
	if got := p.median(kept, true); got != 17*sec {
		t.Errorf("median of all thought out: got %v, want 17 s", got)
	}
	if got := p.mean(4); got != 30500*time.Millisecond {
		t.Errorf("mean of the last four: got %v, want 30.5 s", got)
	}
}
