package clock

import (
	"math/rand/v2"
	"testing"
	"time"
)

// BenchmarkPly is all that this package does for one more ply of a game of 80.
func BenchmarkPly(b *testing.B) {
	c, err := ParseControl("600+5")
	if err != nil {
		b.Fatal(err)
	}
	readings, waited := game(rand.New(rand.NewPCG(1, 1)), 80, false, time.Second)
	seen := sightings(time.Second, make([]time.Duration, 32)...)
	prev := Timed{Left: 300 * sec, LeftQuality: QualityRead}
	b.ReportAllocs()
	for b.Loop() {
		c.Reads.Step = StepOf(readings)
		c.Reads.Before, _ = c.ReadsBefore(readings)
		mended, _ := c.Mend(readings, waited)
		c.For(White).After(prev, 41, mended[79], waited[79])
		Locate(seen).Start(0, 2*sec, seen[0].At)
	}
}
