package tell

import (
	"math"
	"testing"
)

// Rounds of the fit. More change no constant by .01, and all but one by less than .005.
const (
	fitRounds   = 30 // of expectation and maximisation
	tempoRounds = 3  // of a filter with the constants found so far, for tempo
)

// fit fits a model to chains from where it stands.
func (f *fitting) fit(list []chain, rounds int) {
	var buf [64]float64
	f.n = len(f.columns(&list[0].rows[0], buf[:]))
	if f.weights == nil {
		f.weights = make([]float64, f.n)
		f.weights[0], f.prepared = math.Log(f.p.thinkingShare), math.Log(f.p.preparedMedian)
	}
	for range rounds {
		f.maximise(f.expect(list))
	}
}

// params returns the constants in the form the filter takes them.
func (f *fitting) params() params {
	p := f.p
	p.thinkingShare, p.preparedMedian = math.Exp(f.weights[0]), math.Exp(f.prepared)
	for c := range classes {
		at := f.weights[1+int(c)*boardColumns:]
		copy(p.replyShift[c][1:], at[:choiceColumn])
		p.choiceShift[c], p.rescueShift[c] = at[choiceColumn], at[rescueColumn]
	}
	lags := f.weights[1+int(classes)*boardColumns:]
	p.lagOther, p.lagOwn = lags[0], lags[1]
	return p
}

// fitted fits the filter's constants to the ordinary games of all folds but one (-1:
// none left out), starting from p.
func fitted(games map[string][]realGame, p params, leftOut int) params {
	f := &fitting{p: p}
	for range tempoRounds {
		var list []chain
		for _, class := range []string{ordinary900, ordinary600} {
			for _, c := range chains(games[class], &p, nil) {
				if c.fold != leftOut {
					list = append(list, c)
				}
			}
		}
		f.fit(list, fitRounds/tempoRounds)
		p = f.params()
	}
	return p
}

// named is a constant of the model with its name.
type named struct {
	name  string
	value float64
}

// fittedConstants lists what the fit finds, in the order of params.
func (p *params) fittedConstants() []named {
	list := []named{
		{"preparedMedian", p.preparedMedian}, {"preparedSD", p.preparedSD},
		{"thinkingShare", p.thinkingShare}, {"thinkingSD", p.thinkingSD}, {"thinkingSDShort", p.thinkingSDShort},
	}
	for c, class := range []string{"classLong", "classShort"} {
		list = append(list,
			named{"replyShift " + class + " Recapture", p.replyShift[c][Recapture]},
			named{"replyShift " + class + " EvadesCheck", p.replyShift[c][EvadesCheck]},
			named{"replyShift " + class + " AfterCapture", p.replyShift[c][AfterCapture]},
			named{"replyPrepare " + class, p.replyPrepare[c]},
			named{"choiceShift " + class, p.choiceShift[c]},
			named{"rescueShift " + class, p.rescueShift[c]})
	}
	return append(list, named{"lagOther", p.lagOther}, named{"lagOwn", p.lagOwn},
		named{"hazardAt", p.hazardAt}, named{"hazardSlope", p.hazardSlope})
}

// TestFit fits the constants to all ordinary real games and prints them. What
// params.go says must be that, rounded to hundredths.
func TestFit(t *testing.T) {
	got, is := fittedWithout(t, -1).fittedConstants(), standard.fittedConstants()
	for i, c := range got {
		t.Logf("%-34s %+.3f", c.name, c.value)
		if math.Abs(c.value-is[i].value) > .006 {
			t.Errorf("%s: the fit gives %.3f, params.go has %.3f", c.name, c.value, is[i].value)
		}
	}
}

// TestFitFinds draws games from a model and fits another to them: the constants of
// the first must come out, as far as so many moves tell.
func TestFitFinds(t *testing.T) {
	truth := *earlier()
	truth.thinkingShare, truth.preparedMedian, truth.hazardSlope, truth.tempoMost = .7, 1.5, .9, 0
	start := *earlier()
	start.tempoMost = 0
	got := fitted(drawnGames(t, &truth, 400), start, -1)
	for _, c := range []struct {
		name      string
		got, want float64
		near      float64
	}{
		{"thinkingShare", got.thinkingShare, .7, .04},
		{"preparedMedian", got.preparedMedian, 1.5, .08},
		{"thinkingSD", got.thinkingSD, truth.thinkingSD, .04},
		{"preparedSD", got.preparedSD, truth.preparedSD, .05},
		{"recapture", got.replyShift[classLong][Recapture], truth.replyShift[classLong][Recapture], .15},
		{"choiceShift", got.choiceShift[classLong], 0, .08},
		{"hazardAt", got.hazardAt, truth.hazardAt, .15},
		{"hazardSlope", got.hazardSlope, .9, .2},
	} {
		if math.Abs(c.got-c.want) > c.near {
			t.Errorf("%s: got %.3f, want %.3f within %.2f", c.name, c.got, c.want, c.near)
		}
	}
}
