package tell

import (
	"math"
	"math/rand/v2"
	"testing"
)

// What the board adds, by hand from params.go at 15+10: .56 ln(n/30) for n legal
// moves, -.41 for a man rescued, nothing for what is not known.
func TestChoice(t *testing.T) {
	tests := []struct {
		name string
		m    Move
		want float64
	}{
		{"unknown", Move{}, 0},
		{"thirty", Move{Legal: 30}, 0},
		{"three", Move{Legal: 3}, -1.2894},
		{"sixty", Move{Legal: 60}, .3882},
		{"more than there are", Move{Legal: 1 << 40}, 1.1106},
		{"rescued", Move{Rescued: true}, -.41},
		{"recapture with three, rescued", Move{Reply: Recapture, Legal: 3, Rescued: true}, -3.2994},
	}
	for _, tt := range tests {
		if got := standard.shift(control(t, "900+10"), tt.m); math.Abs(got-tt.want) > .0005 {
			t.Errorf("%s: got %.4f, want %.4f", tt.name, got, tt.want)
		}
	}
}

// The same quick move speaks less for preparation where there was little to choose
// or a man to save, and a long one more for thinking.
func TestChoiceMatters(t *testing.T) {
	f := quickly(t, 6)
	after := func(m Move) float64 { return f.Next(m).sides[m.Side].thinking }
	plain := next(4)
	plain.Legal = 30
	few, rescue := plain, plain
	few.Legal, rescue.Rescued = 3, true
	if p := after(plain); after(few) <= p || after(rescue) <= p {
		t.Errorf("4 s: %.3f among thirty moves, %.3f among three, %.3f to save a man; want the last two above", p, after(few), after(rescue))
	}
}

// Replies, rescues and legal moves of the generators are about as in the real games.
func TestReplyShares(t *testing.T) {
	var n, rescued, log, square float64
	var of [replies]float64
	for _, class := range []string{ordinary900, ordinary600} {
		for i := range library(t)[class] {
			for _, p := range library(t)[class][i].plies {
				if !p.scored || p.move.Ply > scoredPlies {
					continue
				}
				choice := math.Log(float64(p.move.Legal) / choiceUsual)
				n, log, square = n+1, log+choice, square+choice*choice
				of[p.move.Reply]++
				rescued += indicator(p.move.Rescued)
			}
		}
	}
	for name, share := range map[string][2]float64{
		"recaptures": {of[Recapture] / n, recaptures}, "checks": {of[EvadesCheck] / n, checks},
		"after captures": {of[AfterCapture] / n, captures}, "rescues": {rescued / n, rescues},
		"deviation of legal moves": {math.Sqrt(square/n - log*log/n/n), legalSpread},
	} {
		if math.Abs(share[0]-share[1]) > .02 {
			t.Errorf("%s: %.3f in the games, %.3f drawn", name, share[0], share[1])
		}
	}
}

// The normal distribution between two bounds, against draws.
func TestBetween(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for _, tt := range []struct{ lo, hi, mean, sd float64 }{
		{math.Inf(-1), -.7, .5, 1}, {.4, .9, 2, 1.3}, {3, 3.1, 1, .9}, {1, 1.5, 1.2, .2},
	} {
		var n, sum, squares, all float64
		for range 400_000 {
			all++
			if x := tt.mean + tt.sd*rnd.NormFloat64(); x > tt.lo && x < tt.hi {
				n, sum, squares = n+1, sum+x, squares+x*x
			}
		}
		got := within(tt.lo, tt.hi, tt.mean, tt.sd)
		mean := sum / n
		variance := squares/n - mean*mean
		slack := 6 * math.Sqrt(variance/n)
		if math.Abs(math.Exp(got.log)-n/all) > 5*math.Sqrt(n)/all || math.Abs(got.mean-mean) > slack ||
			math.Abs(got.variance-variance) > .05*variance {
			t.Errorf("%+v: got %+v, drawn %.4f, mean %.4f, variance %.4f", tt, got, math.Log(n/all), mean, variance)
		}
	}
}
