package tell

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// Games drawn from the model itself: of moves to which the filter gives p, a share
// of p must have been thought out. That holds for any exact forward filter (Rabiner
// 1989, as cited from memory in the project notes) and finds mistakes in the code,
// not in the model; it says nothing about people.
func TestCalibratedOnItself(t *testing.T) {
	p := standard
	p.tempoMost, p.evidenceMost, p.preparationMost = 0, math.Inf(1), 1
	rnd := rand.New(rand.NewPCG(7, 11))
	var bins [10]struct{ moves, sum, thought float64 }
	for range 3000 {
		f := newFilter(control(t, "900+10"), &p)
		var thinking [2]bool
		for ply := 3; ply <= 44; ply++ {
			side := clock.Side((ply + 1) % 2)
			m := drawn(rnd, &f, ply, &thinking[side])
			f = f.Next(m)
			got := f.Call(side).Thinking
			b := &bins[min(int(got*10), 9)]
			b.moves, b.sum = b.moves+1, b.sum+got
			if thinking[side] {
				b.thought++
			}
		}
	}
	for i, b := range bins {
		want, got := b.sum/b.moves, b.thought/b.moves
		if limit := 4 * math.Sqrt(want*(1-want)/b.moves); math.Abs(got-want) > limit || b.moves < 500 {
			t.Errorf("bin %d: %.0f moves given %.4f, thought out %.4f; want within %.4f", i, b.moves, want, got, limit)
		}
	}
}

// drawn draws a move from the model: first whether the side now thinks, then for how
// long, in whole seconds. The first own move here is where the model starts.
func drawn(rnd *rand.Rand, f *Filter, ply int, thinking *bool) Move {
	side := clock.Side((ply + 1) % 2)
	chance := 1 - f.p.startPrepared
	switch {
	case *thinking && own(ply) > 2:
		chance = 1 - f.p.returning
	case own(ply) > 2:
		chance = f.p.hazard(ply, 0)
	}
	*thinking = rnd.Float64() < chance
	m := Move{Ply: ply, Side: side, Quality: clock.QualityRead, Reply: Reply(rnd.IntN(int(replies)))}
	e := f.emission(m)
	of := e.prepared
	if *thinking {
		of = e.thinking
	}
	m.Spent = time.Duration(math.Round(math.Exp(of.mean+of.sd*rnd.NormFloat64()))) * sec
	m.Left = 15 * time.Minute
	return m
}
