package tell

import (
	"math"
	"testing"
	"time"

	"clocktell/relay/clock"
)

const sec = time.Second

func control(t testing.TB, text string) clock.Control {
	t.Helper()
	c, err := clock.ParseControl(text)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// golden is the model as the golden values of the project notes on move times take
// it: median of a prepared move 2.4 s, no tempo, no cap.
func golden() *params {
	p := *earlier()
	p.preparedLeast, p.preparedMost = 2.4, 2.4
	p.lagOther, p.lagOwn, p.tempoMost = 0, 0, 0
	p.evidenceMost = math.Inf(1)
	return &p
}

// Values of the project notes on move times, section 3, to the two digits printed
// there; recomputed from the formulas with another library (C's erfc) before use.
func TestGoldenEvidence(t *testing.T) {
	c := control(t, "900+10")
	tests := []struct {
		reply Reply
		d     []int
		want  []float64
	}{
		{Quiet, []int{0, 1, 2, 3, 5, 8, 10, 12, 15, 20, 30, 60},
			[]float64{-2.81, -2.33, -1.73, -1.24, -.50, .29, .71, 1.07, 1.54, 2.17, 3.14, 4.99}},
		{Recapture, []int{1, 2, 3, 5, 10, 20}, []float64{-.69, -.17, .26, .91, 2.01, 3.36}},
	}
	for _, tt := range tests {
		e := onReply(golden(), c, tt.reply, 0, 0)
		for i, d := range tt.d {
			if got := e.evidence(time.Duration(d)*sec, sec); math.Abs(got-tt.want[i]) > .005 {
				t.Errorf("reply %d, %d s: got %.4f, want %.2f", tt.reply, d, got, tt.want[i])
			}
		}
	}
}

// As above.
func TestGoldenRunning(t *testing.T) {
	e := onReply(golden(), control(t, "900+10"), Quiet, 0, 0)
	want := map[int]float64{5: 1.34, 10: 2.31, 15: 3.03, 20: 3.59, 30: 4.48}
	for d, w := range want {
		if got := e.running(time.Duration(d) * sec); math.Abs(got-w) > .005 {
			t.Errorf("%d s: got %.4f, want %.2f", d, got, w)
		}
	}
}

// As above: a side's times at plies 3 to 21 and its probability after each. The
// sequence must not depend on the colour, and an untimed first move changes nothing.
func TestGoldenSequence(t *testing.T) {
	spent := []int{2, 1, 3, 2, 4, 2, 14, 3, 40, 22}
	want := []float64{.009, .014, .046, .038, .090, .054, .540, .329, .977, .998}
	for _, untimed := range []bool{false, true} {
		for side := clock.White; side <= clock.Black; side++ {
			f := newFilter(control(t, "900+10"), golden())
			if untimed {
				f = f.Next(Move{Ply: 1, Side: side})
			}
			for i, d := range spent {
				f = f.Next(Move{Ply: 3 + 2*i, Side: side, Spent: time.Duration(d) * sec, Quality: clock.QualityRead})
				if got := f.Call(side).Thinking; math.Abs(got-want[i]) > .0005 {
					t.Errorf("%v, untimed first %v, ply %d: got %.4f, want %.3f", side, untimed, 3+2*i, got, want[i])
				}
			}
		}
	}
}

// Hazards printed in the same section: "h = .12 at ply 6, .15 at 10, .19 at 16, .28
// at 26", and the prior alone, first timed at ply 3: .38 at ply 9, .64 at 15, .83 at
// 21, .90 at 25. The printed prior comes out with no way back to preparation; with
// the model's it is up to .014 lower.
func TestGoldenHazard(t *testing.T) {
	for ply, want := range map[int]float64{6: .12, 10: .15, 16: .19, 26: .28} {
		if got := earlier().hazard(ply, 0); math.Abs(got-want) > .005 {
			t.Errorf("hazard at ply %d: got %.4f, want %.2f", ply, got, want)
		}
	}
	want := map[int]float64{9: .38, 15: .64, 21: .83, 25: .90}
	oneWay := *earlier()
	oneWay.returning = 0
	thinking := 1 - oneWay.startPrepared
	for ply := 5; ply <= 25; ply += 2 {
		thinking = oneWay.predict(thinking, ply, 0)
		if w, ok := want[ply]; ok && math.Abs(thinking-w) > .005 {
			t.Errorf("prior at ply %d: got %.4f, want %.2f", ply, thinking, w)
		}
	}
}

// Prior mean and deviation of the forecast against the three fitted controls of
// section 4 (3+2, 10+5, 15+10), to a second: they are printed rounded.
func TestForecastPrior(t *testing.T) {
	for text, want := range map[string][2]float64{"180+2": {7, 9}, "600+5": {17, 25}, "900+10": {23, 38}} {
		f := New(control(t, text))
		mean, sd := f.pacing(&f.sides[0])
		if math.Abs(mean-want[0]) > 1 || math.Abs(sd-want[1]) > 1 {
			t.Errorf("%s: got mean %.1f, deviation %.1f; want %v", text, mean, sd, want)
		}
	}
}
