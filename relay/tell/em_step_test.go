package tell

import "math"

// spread sums squared distances for a deviation.
type spread struct{ squares, weight float64 }

func (s *spread) add(b between, mean, weight float64) {
	s.squares += weight * ((b.mean-mean)*(b.mean-mean) + b.variance)
	s.weight += weight
}

// sd returns the deviation, with so many observations' worth of was.
func (s *spread) sd(was, trust float64) float64 {
	return math.Sqrt((s.squares + trust*was*was) / (s.weight + trust))
}

// Pulls of the fit, in observations: towards 0 for a weight, towards a half for the
// part of a shift that counts for a prepared move.
const (
	pullWeight = 3.0
	pullShare  = 20.0

	hazardGuess, slopeGuess = -1.45, .5 // of the project notes; the fit is pulled there by two observations
)

// expected is a timed row with its states and what is hidden.
type expected struct {
	hidden
	r *row
	x []float64
	s state
}

// expect works out what is hidden.
func (f *fitting) expect(list []chain) []expected {
	var out []expected
	for n := range list {
		c := &list[n]
		states := make([]state, len(c.rows))
		for i := range c.rows {
			states[i] = f.state(&c.rows[i])
		}
		found := make([]hidden, len(states))
		if !f.oneState {
			found = f.smooth(c, states)
		}
		for i := range c.rows {
			if f.oneState {
				found[i].thinking = 1
			}
			if c.rows[i].timed {
				out = append(out, expected{found[i], &c.rows[i], f.columns(&c.rows[i], nil), states[i]})
			}
		}
	}
	return out
}

// maximise takes the constants that fit best what was expected.
func (f *fitting) maximise(list []expected) {
	both := newSquares(f.n, pullWeight)
	both.a[0][0] = 0
	var buf [64]float64
	for i := range list {
		e := &list[i]
		offP, offT := f.offsets(e.r)
		sd := f.sd(e.r)
		both.add(e.x, e.s.thinking.mean-offT, e.thinking/(sd*sd))
		if !f.oneState {
			shared := f.boardOnly(e.x, f.p.replyPrepare[e.r.class], buf[:])
			both.add(shared, e.s.prepared.mean-offP-f.prepared, (1-e.thinking)/(f.p.preparedSD*f.p.preparedSD))
		}
	}
	f.weights = both.solve()
	if !f.oneState {
		f.maximisePrepared(list)
		f.maximiseHazard(list)
	}
	var slow, fast spread
	for i := range list {
		e := &list[i]
		_, off := f.offsets(e.r)
		of := &slow
		if e.r.fast {
			of = &fast
		}
		of.add(e.s.thinking, off+dot(e.x, f.weights), e.thinking)
	}
	f.p.thinkingSD, f.p.thinkingSDShort = slow.sd(f.p.thinkingSD, 1), fast.sd(f.p.thinkingSDShort, 1)
}

// maximisePrepared takes median and deviation of prepared moves, and the part of a
// shift that counts for them.
func (f *fitting) maximisePrepared(list []expected) {
	shares := newSquares(1+int(classes), 0)
	for c := range classes {
		shares.a[1+c][1+c], shares.b[1+c] = pullShare, pullShare/2
	}
	shift := func(e *expected) (out [1 + int(classes)]float64) {
		var buf [64]float64
		out[0] = 1
		out[1+e.r.class] = dot(f.boardOnly(e.x, 1, buf[:]), f.weights)
		return out
	}
	for i := range list {
		e, x := &list[i], shift(&list[i])
		off, _ := f.offsets(e.r)
		shares.add(x[:], e.s.prepared.mean-off, 1-e.thinking)
	}
	got := shares.solve()
	f.prepared = got[0]
	copy(f.p.replyPrepare[:], got[1:])
	var prepared spread
	for i := range list {
		x := shift(&list[i])
		off, _ := f.offsets(list[i].r)
		prepared.add(list[i].s.prepared, off+dot(x[:], got), 1-list[i].thinking)
	}
	f.p.preparedSD = prepared.sd(f.p.preparedSD, 10)
}

// maximiseHazard takes one step of Newton's method towards the hazard that fits.
func (f *fitting) maximiseHazard(list []expected) {
	p, step := &f.p, newSquares(2, 2)
	step.b[0], step.b[1] = -2*(p.hazardAt-hazardGuess), -2*(p.hazardSlope-slopeGuess)
	for i := range list {
		e := &list[i]
		x := []float64{1, (float64(e.r.ply) - p.hazardPly) / 10}
		h := p.hazard(e.r.ply, 0)
		step.add(x, 0, e.before*h*(1-h))
		for k := range x {
			step.b[k] += (e.leaves - e.before*h) * x[k]
		}
	}
	by := step.solve()
	p.hazardAt, p.hazardSlope = p.hazardAt+clamp(by[0], .5), p.hazardSlope+clamp(by[1], .5)
}
