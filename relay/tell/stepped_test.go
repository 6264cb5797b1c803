package tell

import (
	"testing"
	"time"
)

// TestStepped: what is said of a running time is never more than it, never nothing, never falls,
// and is said anew five times within its first ten seconds, and five times more within its first minute.
func TestStepped(t *testing.T) {
	said, times := time.Duration(0), 0
	for elapsed := time.Second; elapsed <= time.Hour; elapsed += 100 * time.Millisecond {
		now := stepped(elapsed)
		if now > elapsed || now <= 0 || now < said {
			t.Fatalf("%v is said to be %v, after %v", elapsed, now, said)
		}
		if now != said {
			times++
		}
		said = now
		switch {
		case elapsed == 9900*time.Millisecond && times != 5:
			t.Errorf("said %d times within ten seconds, want 1 to 4 and 5", times)
		case elapsed == 59900*time.Millisecond && times != 10:
			t.Errorf("said %d times within a minute, want every ten seconds besides", times)
		}
	}
}
