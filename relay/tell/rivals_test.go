package tell

import "math"

// scores is the log-likelihood of each game's moves, by number of the game.
type scores struct {
	name  string
	games map[int]float64
	moves int
}

func newScores(name string) *scores { return &scores{name: name, games: make(map[int]float64)} }

// perMove returns the mean in nats per move.
func (s *scores) perMove() float64 {
	sum := 0.0
	for _, x := range s.games {
		sum += x
	}
	return sum / float64(s.moves)
}

// above returns by how much s beats other in nats per move, and the standard error
// of that, paired by game.
func (s *scores) above(other *scores) (mean, err float64) {
	n := float64(len(s.games))
	var sum, squares float64
	for game, x := range s.games {
		d := x - other.games[game]
		sum += d
		squares += d * d
	}
	return sum / float64(s.moves), math.Sqrt(max(0, squares-sum*sum/n)) / float64(s.moves)
}

// scoreFilter scores the filter itself, one step ahead, on the games of a fold (-1:
// all).
func (s *scores) scoreFilter(games []realGame, p *params, fold int) {
	for n := range games {
		g := &games[n]
		if fold >= 0 && n%folds != fold {
			continue
		}
		f := newFilter(g.control, p)
		for i := range min(len(g.plies), scoredPlies) {
			if ply := &g.plies[i]; ply.scored && g.counts(ply.move.Side) {
				s.games[n] += f.oneStep(ply.move)
				s.moves++
			}
			f = f.Next(g.plies[i].move)
		}
	}
}

// oneStep returns the log-likelihood of a move's time by the moves before it.
func (f Filter) oneStep(m Move) float64 {
	m = m.sane(f.p)
	s := &f.sides[m.Side] // f is a copy
	e := f.emission(m)
	f.predict(s, m)
	half := m.Resolution.Seconds() / 2
	return logSum(math.Log(s.thinking)+e.thinking.logWithin(m.Spent.Seconds(), half),
		math.Log(1-s.thinking)+e.prepared.logWithin(m.Spent.Seconds(), half))
}

// scoreFolds scores a model fitted to the other folds, for each fold.
func (s *scores) scoreFolds(list []chain, model fitting, rounds int) {
	for fold := range folds {
		var learn []chain
		for _, c := range list {
			if c.fold != fold {
				learn = append(learn, c)
			}
		}
		f := model
		f.fit(learn, rounds)
		for i := range list {
			if list[i].fold == fold {
				sum, moves := f.score(&list[i])
				s.games[list[i].game] += sum
				s.moves += moves
			}
		}
	}
}

// scoreRule scores the rule that a side is prepared until its first move of more
// than ten seconds: a log-normal before and another after, of the other folds.
func (s *scores) scoreRule(list []chain) {
	for fold := range folds {
		var of [2]logNormal
		for after := range of {
			of[after] = logNormal{2, 1}
			for range fitRounds {
				of[after] = again(list, fold, after, of[after])
			}
		}
		byRule(list, func(c *chain, r *row, after int) {
			if c.fold == fold {
				s.games[c.game] += within(r.lo, r.hi, of[after].mean, of[after].sd).log
				s.moves++
			}
		})
	}
}

// again takes the log-normal that fits the times better than was.
func again(list []chain, leftOut, after int, was logNormal) logNormal {
	var sum, n float64
	var around spread
	byRule(list, func(c *chain, r *row, is int) {
		if is == after && c.fold != leftOut {
			b := within(r.lo, r.hi, was.mean, was.sd)
			sum, n = sum+b.mean, n+1
			around.add(b, was.mean, 1)
		}
	})
	mean := sum / n
	return logNormal{mean, math.Sqrt(around.squares/n - (mean-was.mean)*(mean-was.mean))}
}

// byRule visits every timed move with 0 before the first move over ten seconds and
// 1 after it.
func byRule(list []chain, visit func(c *chain, r *row, after int)) {
	const limit = 10
	for n := range list {
		c, after := &list[n], 0
		for i := range c.rows {
			r := &c.rows[i]
			if !r.timed {
				continue
			}
			visit(c, r, after)
			if math.Exp(r.hi)-.5 > limit {
				after = 1
			}
		}
	}
}
