package tell

import "math"

// tally is what is counted of a game.
type tally struct {
	moves, right, near, nearRight float64
	squares, logs                 float64
	sides, early, detected, delay float64 // delay in own moves, over those detected
}

func (t *tally) add(o *tally) {
	t.moves, t.right, t.near, t.nearRight = t.moves+o.moves, t.right+o.right, t.near+o.near, t.nearRight+o.nearRight
	t.squares, t.logs = t.squares+o.squares, t.logs+o.logs
	t.sides, t.early, t.detected, t.delay = t.sides+o.sides, t.early+o.early, t.detected+o.detected, t.delay+o.delay
}

// figure is one figure of an assessment: a sum over the games by another.
type figure struct {
	name string
	of   func(*tally) (sum, by float64)
}

// The figures. An early alarm counts as no delay: so counted, the rule "ply above 16"
// gives the 2.1 of the project notes, which do not say how they count (3.2 over the
// changes not called early).
var (
	accuracy   = figure{"accuracy", func(t *tally) (sum, by float64) { return t.right, t.moves }}
	nearby     = figure{"within four moves of the change", func(t *tally) (sum, by float64) { return t.nearRight, t.near }}
	brierScore = figure{"Brier score", func(t *tally) (sum, by float64) { return t.squares, t.moves }}
	logLoss    = figure{"log loss", func(t *tally) (sum, by float64) { return t.logs, t.moves }}
	early      = figure{"early alarms", func(t *tally) (sum, by float64) { return t.early, t.sides }}
	delay      = figure{"delay in own moves", func(t *tally) (sum, by float64) { return t.delay, t.early + t.detected }}
)

// is returns a figure and its standard error, games being independent: that of a
// ratio of sums, by the usual linear approximation (Cochran 1977, from memory).
func (a *assessment) is(f figure) (value, err float64) {
	return a.above(f, nil)
}

// above returns by how much a figure is above that of another judge of the same
// games, and the standard error of that, paired by game. Against nobody it is the
// figure itself.
func (a *assessment) above(f figure, other *assessment) (value, err float64) {
	sum, by := f.of(&a.all)
	value = sum / by
	var otherValue, otherBy float64
	if other != nil {
		sum, otherBy = f.of(&other.all)
		otherValue = sum / otherBy
	}
	squares := 0.0
	for i := range a.games {
		s, b := f.of(&a.games[i])
		d := (s - value*b) / by
		if other != nil {
			s, b = f.of(&other.games[i])
			d -= (s - otherValue*b) / otherBy
		}
		squares += d * d
	}
	return value - otherValue, math.Sqrt(squares)
}
