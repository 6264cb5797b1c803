package facts

import (
	"testing"
	"time"

	corentings "github.com/corentings/chess/v2"
)

// BenchmarkOf finds the facts of positions of the library's games, and in the same run
// the legal moves of the same positions with github.com/corentings/chess/v2 v2.3.2, from
// which it reports the ratio: that figure means the same on a busy machine. The slowest
// position, the best of five tries, is told too.
func BenchmarkOf(b *testing.B) {
	positions := libraryPositions(b, 2000, 13)
	theirs := make([]*corentings.Position, len(positions))
	fens := make([]string, len(positions))
	for i := range positions {
		fens[i] = positions[i].FEN()
	}
	list := make(Facts, 0, usual)
	var ours, other time.Duration
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		i := n % len(positions)
		n++
		b.StopTimer()
		theirs[i] = &corentings.Position{} // it keeps its moves, so a new one each time
		if err := theirs[i].UnmarshalText([]byte(fens[i])); err != nil {
			b.Fatal(err)
		}
		begun := time.Now()
		theirs[i].ValidMoves()
		other += time.Since(begun)
		b.StartTimer()
		begun = time.Now()
		list = AppendOf(list[:0], &positions[i])
		ours += time.Since(begun)
	}
	b.ReportMetric(float64(ours)/float64(other), "x-legal-moves")
	b.ReportMetric(float64(slowest(positions).Nanoseconds()), "slowest-ns")
}

func slowest(positions []Position) time.Duration {
	list := make(Facts, 0, usual)
	var worst time.Duration
	for i := range positions {
		best := time.Hour
		for range 5 {
			begun := time.Now()
			list = AppendOf(list[:0], &positions[i])
			best = min(best, time.Since(begun))
		}
		worst = max(worst, best)
	}
	return worst
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
