package opinion

import (
	"math/rand/v2"
	"testing"

	"clocktell/relay/bitboard"
)

// bounded returns a random score, often a bound, often a mate.
func bounded(r *rand.Rand) Score {
	s := Score{Centipawns: r.IntN(1201) - 600, Bound: Bound(r.IntN(3))}
	if r.IntN(6) == 0 {
		s.Centipawns, s.Mate = 0, 1+r.IntN(5)
		if r.IntN(2) == 0 {
			s.Mate = -s.Mate
		}
	}
	return s
}

// rank orders exact scores from the worst for White to the best: shorter mates are better.
func rank(s Score) int {
	switch {
	case s.Mate > 0:
		return 10_000 - s.Mate
	case s.Mate < 0:
		return -10_000 - s.Mate
	}
	return s.Centipawns
}

// within returns an exact score that a bounded one may turn out to be: its own figure, or one
// anywhere on the side that is open.
func within(r *rand.Rand, s Score) Score {
	bound := s.Bound
	s.Bound = Exact
	if bound == Exact || r.IntN(3) == 0 {
		return s
	}
	for range 100 {
		other := bounded(r)
		other.Bound = Exact
		mine, yours := rank(s), rank(other)
		if bound == AtLeast && yours >= mine || bound == AtMost && yours <= mine {
			return other
		}
	}
	return s
}

func withinAll(r *rand.Rand, o *Opinion) *Opinion {
	next := *o
	next.Lines = nil
	for _, l := range o.Lines {
		l.Score = within(r, l.Score)
		next.Lines = append(next.Lines, l)
	}
	next.stepsSay(next.Lines[0].Score)
	return &next
}

// stepsSay lets every depth have had the same score.
func (o *Opinion) stepsSay(s Score) {
	o.Steps = append([]Step(nil), o.Steps...)
	for i := range o.Steps {
		o.Steps[i].Score = s
	}
}

// TestBoundsProve: whatever the exact scores behind bounds may be, a call that was made with
// the bounds is made with them. So no call rests on what a bound does not prove.
func TestBoundsProve(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 3))
	p := place(t, freeKnight)
	natural, _ := moved(t, p, "Bxd5")
	played, next := moved(t, p, "h3")
	calls := make(map[string]int)
	for range 20_000 {
		before := made(t, p, 14, "0 g3 h6", "0 Bxd5 h6 h3", "0 Kf1 h6")
		after := made(t, next, 14, "0 h6 Kf1", "0 g6", "0 Nf6")
		for _, o := range []*Opinion{before, after} {
			for i := range o.Lines {
				o.Lines[i].Score = bounded(r)
			}
		}
		if r.IntN(2) == 0 {
			before.Lines[0], before.Lines[2] = before.Lines[2], before.Lines[0]
		}
		before.stepsSay(before.Lines[0].Score)
		after.stepsSay(after.Lines[0].Score)
		said := called(p, natural, Moment{p, played, before, after})
		exact := called(p, natural, Moment{p, played, withinAll(r, before), withinAll(r, after)})
		for name := range said {
			calls[name]++
			if !exact[name] {
				t.Fatalf("%s is called of %+v, %+v", name, before, after)
			}
		}
	}
	for _, name := range []string{"swing", "mate", "only", "refuted", "gap"} {
		if calls[name] < 100 {
			t.Errorf("%s was called %d times: the test sees too little", name, calls[name])
		}
	}
	t.Log(calls)
}

func called(p *bitboard.Position, natural bitboard.Move, m Moment) map[string]bool {
	out := make(map[string]bool)
	note := func(name string, ok bool) {
		if ok {
			out[name] = true
		}
	}
	_, ok := m.Swing()
	note("swing", ok)
	_, ok = m.MissedMate()
	note("mate", ok)
	_, ok = m.Before.OnlyMove(p)
	note("only", ok)
	_, ok = m.Before.Refutation(p, natural, TakesFree)
	note("refuted", ok)
	c, ok := m.Before.Choice(p)
	note("gap", ok && c.Gap >= hardGap)
	note("quiet", m.Before.Quiet(p))
	return out
}
