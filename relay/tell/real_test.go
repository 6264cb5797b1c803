package tell

import "testing"

// regression scores the log-normal without a hidden state, fitted to each class and
// fold. Bare, it knows the part of the game, the reply and both lags, as in the
// project notes; else all the filter's evidence.
func regression(games []realGame, p *params, bare bool) *scores {
	s := newScores("regression, same evidence")
	list := chains(games, p, nil)
	model := fitting{p: *p, oneState: true, quarters: true}
	if bare {
		s.name = "regression"
		model.without = without(choiceColumn, rescueColumn)
		stillTempo(list)
	}
	s.scoreFolds(list, model, fitRounds)
	return s
}

// without returns the columns of the board to leave out, in every class.
func without(columns ...int) map[int]bool {
	out := make(map[int]bool)
	for c := range int(classes) {
		for _, k := range columns {
			out[1+c*boardColumns+k] = true
		}
	}
	return out
}

// stillTempo takes the tempo out of rows.
func stillTempo(list []chain) {
	for i := range list {
		for k := range list[i].rows {
			list[i].rows[k].tempo = 0
		}
	}
}

// heldOut scores the filter on each game with constants fitted to the other folds.
func heldOut(t *testing.T, games []realGame) *scores {
	s := newScores("filter")
	for fold := range folds {
		s.scoreFilter(games, fittedWithout(t, fold), fold)
	}
	return s
}

// TestAssessReal scores one-step predictions on real clocks, in nats per move. There
// is no label of preparation, so this says how well times are foreseen and nothing
// of whether the states are what they are called. Errors are paired by game, and
// too small: one account plays in all games.
//
// Goals and rivals are those of the project notes on move times, sections 2 and 3.
// Version 1 had constants rounded from these very games, so it is flattered. Of
// displays the notes fit their model to displays, and the regression here is; no
// constant of the filter is, and it misses the first and the third goal.
func TestAssessReal(t *testing.T) {
	games, p := library(t), fittedWithout(t, -1)
	for _, tt := range []struct {
		class  string
		moves  int        // counted by the notes too
		want   float64    // nats per move
		assert [3]float64 // nats per move, above the rule, standard errors above the regression
	}{
		{ordinary900, 2184, -3.783, [3]float64{-3.783, .05, 2}},
		{ordinary600, 4030, -3.617, [3]float64{-3.617, .05, 2}},
		{displays, 6751, -4.467, [3]float64{-4.525, .05, -5}},
	} {
		now := heldOut(t, games[tt.class])
		rule := newScores("rule: first move over 10 s")
		rule.scoreRule(chains(games[tt.class], p, nil))
		first := newScores("filter, version 1")
		first.scoreFilter(games[tt.class], earlier(), -1)
		bare := regression(games[tt.class], p, true)
		t.Logf("%-12s %-28s %d moves %.4f", tt.class, now.name, now.moves, now.perMove())
		for _, s := range []*scores{rule, bare, regression(games[tt.class], p, false), first} {
			by, err := now.above(s)
			t.Logf("%-12s %-28s %d moves %.4f; filter above it by %+.4f ± %.4f", tt.class, s.name, s.moves, s.perMove(), by, err)
		}
		if now.moves != tt.moves || rule.moves != tt.moves || bare.moves != tt.moves {
			t.Errorf("%s: %d, %d and %d moves scored, want %d", tt.class, now.moves, rule.moves, bare.moves, tt.moves)
		}
		overRule, _ := now.above(rule)
		over, err := now.above(bare)
		goal{"nats per move", now.perMove(), 0, tt.want, tt.assert[0], true}.check(t, tt.class)
		goal{"above the rule", overRule, 0, .05, tt.assert[1], true}.check(t, tt.class)
		goal{"errors above the regression", over / err, 0, 2, tt.assert[2], true}.check(t, tt.class)
	}
}
