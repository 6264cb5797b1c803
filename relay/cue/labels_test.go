package cue

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

// TestLabelsAgainstAnother: thousands of frames of a day have the labels that the npm
// library smpte-timecode gives them.
func TestLabelsAgainstAnother(t *testing.T) {
	random := rand.New(rand.NewPCG(12, 1))
	var asked, want []string
	for _, r := range Rates {
		drop, frames := 0, []int64{0, r.Day() - 1}
		if r.Drop() {
			drop = 1
		}
		for range 1000 {
			frames = append(frames, random.Int64N(r.Day()))
		}
		for m := range int64(30) { // around whole minutes, where numbers are left out
			for d := int64(-3); d < 6; d++ {
				frames = append(frames, max(0, m*60*r.Base-m*r.Dropped+d))
			}
		}
		for _, n := range frames {
			asked = append(asked, fmt.Sprintf("%s %d %d", strings.TrimSuffix(r.Name, "-nondrop"), n, drop))
			want = append(want, r.Label(n))
		}
	}
	var got []string
	readBy(t, "labels", strings.Join(asked, "\n"), &got)
	if len(got) != len(want) {
		t.Fatalf("%d labels, want %d", len(got), len(want))
	}
	wrong := 0
	for i := range got {
		if got[i] != want[i] {
			if wrong++; wrong < 10 {
				t.Errorf("%s: %s, the other says %s", asked[i], want[i], got[i])
			}
		}
	}
}
