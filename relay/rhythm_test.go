package relay

import (
	"slices"
	"testing"
	"time"
)

// TestRhythmAgainstAList: chunks hold what a plain list does that is cut at its front, and what was held
// before stays, whatever goes on from it.
func TestRhythmAgainstAList(t *testing.T) {
	for _, every := range []time.Duration{100 * time.Millisecond, time.Second, 7 * time.Second, 4 * time.Minute, 6 * time.Minute} {
		var beats rhythm
		var list []Beat
		for i := range 2000 {
			b := Beat{At: noon.Add(time.Duration(i) * every), Kind: []BeatKind{BeatSame, BeatNew, BeatFault}[i%3]}
			other := beats.with(Beat{At: b.At, Kind: "other"})
			beats = beats.with(b)
			list = slices.DeleteFunc(append(list, b), func(was Beat) bool { return b.At.Sub(was.At) > rhythmSpan })
			list = list[max(0, len(list)-rhythmMost):]
			if got := (&Feed{beats: beats}).Rhythm(); !slices.Equal(got, list) {
				t.Fatalf("every %v, beat %d: %d beats from %v, want %d from %v", every, i, len(got), got[0], len(list), list[0])
			}
			if got := (&Feed{beats: other}).Rhythm(); got[len(got)-1].Kind != "other" {
				t.Fatalf("every %v, beat %d: what goes on in another way ends with %v", every, i, got[len(got)-1])
			}
		}
	}
}
