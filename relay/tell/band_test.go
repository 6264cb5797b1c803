package tell

import (
	"math"
	"slices"
	"testing"
)

// landing is where clocks of a class were so many own moves on, in units of the band.
type landing struct {
	units         []float64
	inside, below float64 // the band
}

// landings projects every clock of ordinary games, or of guests, so many own moves on.
func landings(games []realGame, ahead int) *landing {
	var l landing
	for k := range games {
		g := &games[k]
		f := New(g.control)
		for i := range g.plies {
			m := g.plies[i].move
			f = f.Next(m)
			if !g.guest(m.Side) || i+2*ahead >= len(g.plies) {
				continue
			}
			p, came := f.Projection(m.Side, m.Left), g.plies[i+2*ahead].move.Left
			_, low, high, ok := p.At(own(m.Ply) + ahead)
			if !ok {
				continue
			}
			n := float64(ahead)
			middle := p.left.Seconds() + n*(p.inc.Seconds()-p.mean)
			l.units = append(l.units, (came.Seconds()-middle)/(p.sd*math.Sqrt(n+n*n/p.weight)))
			l.inside += indicator(came >= low && came <= high)
			l.below += indicator(came < low)
		}
	}
	slices.Sort(l.units)
	return &l
}

// TestAssessProjection counts on real clocks how often a clock some own moves on lies in
// the band, which is meant to hold it four times in five, and prints what bandLow and
// bandHigh would have to be for just that. They are about the middle of what it prints
// for ordinary games, five to twenty moves on, so these shares are flattered; displays
// were not looked at, and there the band is too narrow.
func TestAssessProjection(t *testing.T) {
	games := library(t)
	var low, high, cells float64
	for _, class := range []string{ordinary900, ordinary600, displays} {
		for _, ahead := range []int{5, 10, 20} {
			l := landings(games[class], ahead)
			n := float64(len(l.units))
			under, over := -l.units[len(l.units)/10], l.units[len(l.units)*9/10]
			t.Logf("%-12s %2d own moves on, %4.0f clocks: %.3f in the band meant for .80, %.3f below it; %.2f below and %.2f above would be .80",
				class, ahead, n, l.inside/n, l.below/n, under, over)
			least := .74
			if class == displays {
				least = .62
			} else {
				low, high, cells = low+under, high+over, cells+1
			}
			if share := l.inside / n; share < least || share > .90 {
				t.Errorf("%s, %d moves on: %.3f in the band, want %.2f to .90", class, ahead, share, least)
			}
		}
	}
	if math.Abs(low/cells-bandLow) > .1 || math.Abs(high/cells-bandHigh) > .1 {
		t.Errorf("the games ask for %.2f below and %.2f above, params.go has %.2f and %.2f", low/cells, high/cells, bandLow, bandHigh)
	}
}
