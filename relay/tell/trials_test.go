package tell

import (
	"math"

	"clocktell/relay/clock"
)

func indicator(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// onBoard is a trial of what the board says of a move.
func onBoard(name string, value func(s *scene) float64) trial {
	return trial{name, func(g *realGame, i int, _ *Filter) float64 { return value(&g.plies[i].seen) }}
}

// clockShare is the logarithm of the share of its base time that a side has left.
func clockShare(f *Filter, side clock.Side) float64 {
	return math.Log(max(.02, f.sides[side].left.Seconds()/f.controls[side].Start().Seconds()))
}

// trials are the covariates on trial, each alone on top of what the filter uses.
var trials = []trial{
	onBoard("three legal moves or fewer", func(s *scene) float64 { return indicator(s.legal <= 3) }),
	onBoard("captures, not back", func(s *scene) float64 { return indicator(s.captures && s.reply != Recapture) }),
	onBoard("gives check", func(s *scene) float64 { return indicator(s.checks) }),
	onBoard("castles", func(s *scene) float64 { return indicator(s.castles) }),
	onBoard("king moves", func(s *scene) float64 { return indicator(s.king && !s.castles) }),
	onBoard("pawn moves", func(s *scene) float64 { return indicator(s.pawn) }),
	onBoard("man moved stood attacked", func(s *scene) float64 { return indicator(s.attacked) }),
	onBoard("own men in danger", func(s *scene) float64 { return min(2, float64(s.threatens)) }),
	onBoard("same man as before", func(s *scene) float64 { return indicator(s.follows) }),
	onBoard("man goes back", func(s *scene) float64 { return indicator(s.returns) }),
	onBoard("position repeated", func(s *scene) float64 { return indicator(s.repeats) }),
	onBoard("men on the board", func(s *scene) float64 { return float64(s.men-28) / 8 }),
	{"ply", func(g *realGame, i int, _ *Filter) float64 { return float64(i-29) / 15 }},
	{"ply, curved", func(g *realGame, i int, _ *Filter) float64 { z := float64(i-29) / 15; return z * z }},
	{"opponent's tempo", func(g *realGame, i int, f *Filter) float64 {
		return f.sides[g.plies[i].move.Side.Other()].tempo.shift(f.p)
	}},
	{"own share of the clock", func(g *realGame, i int, f *Filter) float64 {
		return clockShare(f, g.plies[i].move.Side)
	}},
	{"opponent's share of the clock", func(g *realGame, i int, f *Filter) float64 {
		return clockShare(f, g.plies[i].move.Side.Other())
	}},
	{"clock against opponent's", func(g *realGame, i int, f *Filter) float64 {
		return clockShare(f, g.plies[i].move.Side) - clockShare(f, g.plies[i].move.Side.Other())
	}},
	{"budget against the pace", func(g *realGame, i int, f *Filter) float64 {
		s := &f.sides[g.plies[i].move.Side]
		return math.Log(max(.1, f.budget(s, s.left).Seconds()) / f.p.pace(f.controls[0], own(i+1)))
	}},
	{"own move before last", func(g *realGame, i int, f *Filter) float64 {
		if i < 6 || !g.plies[i-4].scored {
			return 0
		}
		return f.p.pull(1, g.plies[i-4].move.Spent, f.p.pace(f.controls[0], own(i+1)))
	}},
}
