package facts

import (
	"testing"
	"time"

	corentings "github.com/corentings/chess/v2"
)

// BenchmarkOf finds the facts of positions of the library's games. It also reports how
// long that takes against the legal moves of the same positions with
// github.com/corentings/chess/v2 v2.3.2 (x-legal-moves), and for the slowest position. For
// both every position counts with the best of five tries, one library after the other, so
// that the figures mean the same on a busy machine.
func BenchmarkOf(b *testing.B) {
	positions := libraryPositions(b, 2000, 13)
	list := make(Facts, 0, usual)
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		list = AppendOf(list[:0], &positions[n%len(positions)])
		n++
	}
	var ours, theirs, slowest time.Duration
	for i := range positions {
		own := best(func() func() {
			return func() { list = AppendOf(list[:0], &positions[i]) }
		})
		ours, slowest = ours+own, max(slowest, own)
		theirs += best(func() func() {
			p := &corentings.Position{} // it keeps its moves, so a new one each time
			if err := p.UnmarshalText([]byte(positions[i].FEN())); err != nil {
				b.Fatal(err)
			}
			return func() { p.ValidMoves() }
		})
	}
	b.ReportMetric(float64(ours)/float64(theirs), "x-legal-moves")
	b.ReportMetric(float64(slowest.Nanoseconds()), "slowest-ns")
}

// best returns the shortest of five times, what prepares it left out.
func best(prepare func() func()) time.Duration {
	shortest := time.Hour
	for range 5 {
		work := prepare()
		begun := time.Now()
		work()
		shortest = min(shortest, time.Since(begun))
	}
	return shortest
}

// TestNoAllocation: with room for them, facts ask for no memory.
func TestNoAllocation(t *testing.T) {
	positions := libraryPositions(t, 200, 14)
	list := make(Facts, 0, 4*usual)
	if n := testing.AllocsPerRun(5, func() {
		for i := range positions {
			list = AppendOf(list[:0], &positions[i])
		}
	}); n != 0 {
		t.Errorf("%v allocations for %d positions", n, len(positions))
	}
}
