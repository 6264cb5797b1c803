package tell

import (
	"math"
	"slices"

	"clocktell/relay/clock"
)

// Plies and moves the scores count, as in the project notes on move times.
const (
	scoredPlies = 60
	scoredLeast = 4 // timed moves a side must have made; the others left at once
	folds       = 5
)

// row is one own move as the fits take it.
type row struct {
	ply     int
	lo, hi  float64 // logarithms of the bounds of its time
	timed   bool    // its time counts
	class   class
	fast    bool // pace at or below slowPace
	pace    float64
	tempo   float64   // log, from the filter
	board   []float64 // what shifts both states: replies, choice, rescue
	lags    [2]float64
	extra   []float64 // what is on trial
	quarter int       // of the plies, for the regression: 1-8, 9-16, 17-30, 31-60
}

// chain is a side of a game.
type chain struct {
	fold int
	game int
	rows []row
}

// trial is a covariate on trial: a number for a move, from what was known before it
// and the move itself.
type trial struct {
	name  string
	value func(g *realGame, i int, f *Filter) float64
}

// chains turns games into rows, with tempo and the weights of the past as the filter
// with p sees them.
func chains(games []realGame, p *params, trials []trial) []chain {
	var out []chain
	for n := range games {
		g := &games[n]
		f := newFilter(g.control, p)
		var sides [2]chain
		for i := range min(len(g.plies), scoredPlies) {
			side := g.plies[i].move.Side
			if i >= 2 {
				sides[side].rows = append(sides[side].rows, rowOf(g, i, &f, trials))
			}
			f = f.Next(g.plies[i].move)
		}
		for side := range sides {
			if c := sides[side]; g.counts(clock.Side(side)) {
				c.game, c.fold = n, n%folds
				out = append(out, c)
			}
		}
	}
	return out
}

// counts reports whether a side's times are used.
func (g *realGame) counts(side clock.Side) bool {
	timed := 0
	for _, p := range g.plies[:min(len(g.plies), scoredPlies)] {
		if p.scored && p.move.Side == side {
			timed++
		}
	}
	return timed >= scoredLeast && g.guest(side)
}

func rowOf(g *realGame, i int, f *Filter, trials []trial) row {
	ply := &g.plies[i]
	m := ply.move.sane(f.p)
	pace := f.p.pace(f.controls[0], own(m.Ply))
	r := row{
		ply: m.Ply, timed: ply.scored, class: f.p.class(f.controls[0]), fast: pace <= f.p.slowPace,
		pace: math.Log(pace), tempo: f.sides[m.Side].tempo.shift(f.p), quarter: quarter(m.Ply),
	}
	d := m.Spent.Seconds()
	r.lo, r.hi = math.Inf(-1), math.Log(d+.5)
	if d > 0 {
		r.lo = math.Log(d - .5)
	}
	r.board = make([]float64, boardColumns)
	if m.Reply != Quiet {
		r.board[m.Reply-1] = 1
	}
	r.board[choiceColumn] = math.Log(float64(m.Legal) / choiceUsual)
	if m.Rescued {
		r.board[rescueColumn] = 1
	}
	unit := *f.p
	for k := range r.lags {
		unit.lagOther, unit.lagOwn = float64(1-k), float64(k)
		with := *f
		with.p = &unit
		r.lags[k] = with.lag(m)
	}
	for _, t := range trials {
		r.extra = append(r.extra, t.value(g, i, f))
	}
	return r
}

// Columns of row.board.
const (
	choiceColumn = int(replies) - 1
	rescueColumn = choiceColumn + 1
	boardColumns = rescueColumn + 1
)

// quarter returns which part of a game a ply is in.
func quarter(ply int) int {
	at, _ := slices.BinarySearch([]int{9, 17, 31}, ply+1)
	return at
}
