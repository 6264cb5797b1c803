package tell

import (
	"testing"

	"clocktell/relay/clock"
)

// Both from the middle of a game, with all that is kept filled.
func BenchmarkNextCall(b *testing.B) {
	f := quickly(b, 40)
	m := next(30)
	m.Ply = 83
	b.ReportAllocs()
	for b.Loop() {
		_ = f.Next(m).Call(clock.White)
	}
}

func BenchmarkNext(b *testing.B) {
	f := quickly(b, 40)
	m := next(30)
	m.Ply = 83
	b.ReportAllocs()
	for b.Loop() {
		f = f.Next(m)
	}
}

func TestNextAllocatesNothing(t *testing.T) {
	f, m := quickly(t, 40), next(30)
	m.Ply = 83
	if got := testing.AllocsPerRun(100, func() { f = f.Next(m) }); got != 0 {
		t.Errorf("Next allocates %v times, want 0", got)
	}
}
