package tell

import (
	"flag"
	"math"
	"testing"
	"time"
)

var assessedGames = flag.Int("games", 2000, "games that TestAssess draws of a kind")

// drawnSet is a kind of drawn games with the judges set to it, the filter first.
type drawnSet struct {
	name   string
	g      generator
	judges []string
}

// TestAssess draws games in which each change is known. The goals are the figures
// that the project notes on move times, section 3, give for the filter they
// recommend, on 1,000 games of generators that they describe in words; ours are in
// generator_test.go. A and B are drawn by the filter's own model, which is what
// "matched" means, and once more by that of the notes. The filter that the notes
// recommend is set to the same games, so that it can be compared game by game, and so
// is the exact filter of A, with the generator's own constants and no caution: no other
// can be right more often there. Within four moves of the change even that one stays
// below the .855 of the notes (.852 in 10,000 games), and on the notes' own set the filter
// they recommend does too (.854), so that goal is for a kinder draw.
//
// Sides that recite to move 31 ("no change") are hard on every filter: the chance of
// leaving grows with the ply, and the model is right to expect it. What is counted is
// how many are called thinking by and at own moves 10, 20 and 30.
//
// None of this is accuracy on people: see the package comment.
func TestAssess(t *testing.T) {
	c := control(t, "900+10")
	never, neverC := generatorA(&standard), generatorC(&standard, sec)
	never.stays, neverC.stays = 1, 1
	exact := standard
	exact.hazardSlope, exact.hazardMost, exact.returning = matchedSlope, 1, 0
	exact.tempoMost, exact.evidenceMost = 0, math.Inf(1)
	judges := map[string]func() judge{
		"filter": byFilter(c, &standard), "exact": byFilter(c, &exact),
		"recommended": byFilter(c, recommended()), "over 10 s": byTime(10 * sec),
	}
	got := make(map[string]*assessment)
	for _, s := range []drawnSet{
		{"A", generatorA(&standard), []string{"filter", "recommended", "exact", "over 10 s"}},
		{"B", generatorB(&standard), []string{"filter", "recommended", "over 10 s"}},
		{"A, notes", generatorA(recommended()), []string{"filter", "recommended"}},
		{"B, notes", generatorB(recommended()), []string{"filter", "recommended"}},
		{"C, seconds", generatorC(&standard, sec), []string{"filter", "recommended", "over 10 s"}},
		{"C, minutes", generatorC(&standard, time.Minute), []string{"filter", "recommended"}},
		{"A, no change", never, []string{"filter", "recommended", "over 10 s"}},
		{"C, no change", neverC, []string{"filter", "recommended", "over 10 s"}},
	} {
		list := make([]func() judge, len(s.judges))
		for i, name := range s.judges {
			list[i] = judges[name]
		}
		for i, a := range assess(s.g, c, *assessedGames, list...) {
			got[s.name+": "+s.judges[i]] = a
			t.Logf("%-12s %-12s %v", s.name, s.judges[i], a)
			if s.g.stays == 1 {
				t.Logf("%-12s %-12s called thinking: %s", s.name, s.judges[i], a.saidThinking())
			}
		}
	}
	for _, name := range []string{"A", "B", "C, seconds", "C, minutes"} {
		got[name+": filter"].table(t, name)
	}
	for _, name := range []string{"A", "B", "A, notes", "B, notes"} {
		compare(t, name, got[name+": filter"], got[name+": recommended"])
	}
	checkSynthetic(t, got)
}

// compare logs by how much the filter is above the recommended one, game by game.
func compare(t *testing.T, name string, filter, other *assessment) {
	t.Helper()
	for _, f := range []figure{accuracy, nearby, brierScore, logLoss, early, delay} {
		by, err := filter.above(f, other)
		t.Logf("%-14s %-34s filter above the recommended one by %+.4f ± %.4f", name, f.name, by, err)
	}
}

// bounds are bounds of an assessment.
type bounds struct{ accuracy, near, brier, early, delay float64 }

// check checks an assessment against its goals and the bounds that are asserted.
func (a *assessment) check(t *testing.T, name string, want, assert bounds) {
	t.Helper()
	for _, g := range []struct {
		of           figure
		want, assert float64
		atLeast      bool
	}{
		{accuracy, want.accuracy, assert.accuracy, true},
		{nearby, want.near, assert.near, true},
		{brierScore, want.brier, assert.brier, false},
		{early, want.early, assert.early, false},
		{delay, want.delay, assert.delay, false},
	} {
		got, err := a.is(g.of)
		goal{g.of.name, got, err, g.want, g.assert, g.atLeast}.check(t, name)
	}
}

// checkSynthetic checks what is asked of each set. That of C is ours: to beat the
// rule of ten seconds in all but delay.
func checkSynthetic(t *testing.T, got map[string]*assessment) {
	t.Helper()
	const calibrated = .015
	a, b := bounds{.954, .855, .034, .029, 1.9}, bounds{.928, .799, .053, .087, 2.2}
	got["A: filter"].check(t, "A", a, bounds{.953, .848, .034, .032, 2.0})
	got["B: filter"].check(t, "B", b, bounds{.928, .799, .053, .087, 2.25})
	got["A, notes: filter"].check(t, "A, notes", a, bounds{.952, .848, .035, .034, 2.0})
	got["B, notes: filter"].check(t, "B, notes", b, bounds{.928, .799, .053, .087, 2.3})
	for _, name := range []string{"A", "A, notes"} {
		goal{"calibration error", got[name+": filter"].calibration(), 0, calibrated, calibrated, false}.check(t, name)
	}
	var rule [5]float64
	for i, f := range []figure{accuracy, nearby, brierScore, early} {
		rule[i], _ = got["C, seconds: over 10 s"].is(f)
	}
	c := bounds{rule[0], rule[1], rule[2], rule[3], 2.5}
	got["C, seconds: filter"].check(t, "C, seconds", c, c)
	for name, most := range map[string]float64{"A, no change": .7, "C, no change": .92} {
		a := got[name+": filter"]
		goal{"called thinking by move 30", a.said[2].by / a.all.sides, 0, most, most, false}.check(t, name)
	}
}
