package tell

import "math"

// fitting is a model under fit: two states by expectation and maximisation (Rabiner
// 1989, as cited from memory in the project notes), hazard, return and start as in
// params, times known to whole seconds only. One state is the regression without
// a hidden one.
type fitting struct {
	p        params
	oneState bool

	quarters bool // a shift of its own for each part of the game
	without  map[int]bool
	weights  []float64 // on thinking: see columns
	prepared float64   // log median at preparedPace
	n        int
}

// columns returns the row for thinking: 1, the board by class, the lags, what is on
// trial, and the parts of the game.
func (f *fitting) columns(r *row, buf []float64) []float64 {
	x := append(buf[:0], 1)
	for c := range classes {
		for _, v := range r.board {
			if c != r.class {
				v = 0
			}
			x = append(x, v)
		}
	}
	x = append(x, r.lags[:]...)
	x = append(x, r.extra...)
	if f.quarters {
		for q := 1; q < 4; q++ {
			v := 0.0
			if r.quarter == q {
				v = 1
			}
			x = append(x, v)
		}
	}
	for i := range x {
		if f.without[i] {
			x[i] = 0
		}
	}
	return x
}

// boardOnly returns x with nothing but what shifts prepared moves as well, by the
// part that counts for them.
func (f *fitting) boardOnly(x []float64, share float64, buf []float64) []float64 {
	out := append(buf[:0], x...)
	for i := range out {
		if i < 1 || i > int(classes)*boardColumns {
			out[i] = 0
		}
		out[i] *= share
	}
	return out
}

// state is what one row says of each state.
type state struct{ prepared, thinking between }

func (f *fitting) sd(r *row) float64 {
	if r.fast {
		return f.p.thinkingSDShort
	}
	return f.p.thinkingSD
}

func (f *fitting) offsets(r *row) (prepared, thinking float64) {
	p := &f.p
	return p.preparedPower*(r.pace-math.Log(p.preparedPace)) + r.tempo, r.pace + r.tempo
}

func (f *fitting) state(r *row) state {
	if !r.timed {
		return state{}
	}
	var bx, by [64]float64
	x := f.columns(r, bx[:])
	offP, offT := f.offsets(r)
	s := state{thinking: within(r.lo, r.hi, offT+dot(x, f.weights), f.sd(r))}
	if !f.oneState {
		shift := dot(f.boardOnly(x, f.p.replyPrepare[r.class], by[:]), f.weights)
		s.prepared = within(r.lo, r.hi, offP+f.prepared+shift, f.p.preparedSD)
	}
	return s
}

// score returns the log-likelihood of a chain, each move given those before it.
func (f *fitting) score(c *chain) (sum float64, moves int) {
	thinking := 1 - f.p.startPrepared
	for i := range c.rows {
		r := &c.rows[i]
		if i > 0 {
			thinking = f.p.predict(thinking, r.ply, 0)
		}
		if !r.timed {
			continue
		}
		s := f.state(r)
		moves++
		if f.oneState {
			sum += s.thinking.log
			continue
		}
		all := logSum(math.Log(thinking)+s.thinking.log, math.Log(1-thinking)+s.prepared.log)
		sum += all
		thinking = certain(math.Exp(math.Log(thinking) + s.thinking.log - all))
	}
	return sum, moves
}

// hidden is what a whole chain says of one row: the chance that it was thought out,
// that the row before was not, and that this one was the first that was.
type hidden struct{ thinking, before, leaves float64 }

// smooth returns what is hidden in a chain.
func (f *fitting) smooth(c *chain, states []state) []hidden {
	ahead := make([]float64, len(states))
	thinking := 1 - f.p.startPrepared
	for i := range states {
		if i > 0 {
			thinking = f.p.predict(thinking, c.rows[i].ply, 0)
		}
		thinking = certain(logistic(logit(thinking) + states[i].evidence()))
		ahead[i] = thinking
	}
	out := make([]hidden, len(states))
	back := 0.0 // log odds of what follows, thinking against prepared
	for i := len(states) - 1; i >= 0; i-- {
		out[i].thinking = logistic(logit(ahead[i]) + back)
		if i == 0 {
			break
		}
		h, r := f.p.hazard(c.rows[i].ply, 0), f.p.returning
		odds := math.Exp(clamp(back+states[i].evidence(), 50))
		stay, leave := (1-ahead[i-1])*(1-h), (1-ahead[i-1])*h*odds
		all := stay + leave + ahead[i-1]*(r+(1-r)*odds)
		out[i].before, out[i].leaves = (stay+leave)/all, leave/all
		back = math.Log(((1-r)*odds + r) / (h*odds + 1 - h))
	}
	return out
}

func (s state) evidence() float64 { return clamp(s.thinking.log-s.prepared.log, 50) }
