package tell

import (
	"flag"
	"testing"
)

var allTrials = flag.Bool("trials", false, "score every covariate that was tried, about half a minute")

// lagColumn is the first column of the lags.
const lagColumn = 1 + int(classes)*boardColumns

// removals are what the filter's evidence is made of, to be left out one by one.
var removals = []struct {
	name    string
	columns map[int]bool
	tempo   bool // leave out the tempo
	wanted  bool // must help in both classes: it came with version 2
}{
	{"legal moves", without(choiceColumn), false, true},
	{"man rescued", without(rescueColumn), false, true},
	{"side's own tempo", nil, true, true},
	{"replies", without(0, 1, 2), false, true},
	{"opponent's last time", map[int]bool{lagColumn: true}, false, true},
	{"own last time", map[int]bool{lagColumn + 1: true}, false, false},
}

// tried scores the two-state model by folds within one class, with covariates on
// trial added to thinking or columns left out.
func tried(t *testing.T, class string, columns map[int]bool, tempo bool, more ...trial) *scores {
	p := fittedWithout(t, -1)
	list := chains(library(t)[class], p, more)
	if !tempo {
		stillTempo(list)
	}
	s := newScores(class)
	s.scoreFolds(list, fitting{p: *p, without: columns}, 20)
	return s
}

// TestTrials scores what the filter's evidence is worth, each part by leaving it out,
// and with -trials what else was tried, each alone on top of it, in nats per move held
// out. Tempo and starting point come from a filter fitted to all games, which flatters
// all rows alike.
func TestTrials(t *testing.T) {
	for _, class := range []string{ordinary900, ordinary600} {
		all := tried(t, class, nil, true)
		t.Logf("%-8s all of the filter's evidence         %.4f", class, all.perMove())
		for _, r := range removals {
			by, err := all.above(tried(t, class, r.columns, !r.tempo))
			t.Logf("%-8s %-34s helps by %+.4f ± %.4f", class, r.name, by, err)
			if r.wanted && by <= 0 {
				t.Errorf("%s: %s does not help: %.4f", class, r.name, by)
			}
		}
		if !*allTrials {
			continue
		}
		for _, more := range trials {
			by, err := tried(t, class, nil, true, more).above(all)
			t.Logf("%-8s %-34s would help by %+.4f ± %.4f", class, more.name, by, err)
		}
	}
}
