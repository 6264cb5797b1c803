package bus

import (
	"flag"
	"testing"
	"time"

	"go.uber.org/goleak"
)

// rounds is how many random faults TestRandomFaults goes through: -args -rounds N.
var rounds = flag.Int("rounds", 24, "random faults that TestRandomFaults goes through")

// TestMain holds that nothing goes on behind a bus that is closed.
func TestMain(m *testing.M) {
	goleak.VerifyTestMain(m)
}

// soon is how long anything may take that is waited for on a busy machine.
const soon = 20 * time.Second

// until waits for a condition.
func until(t *testing.T, what string, is func() bool) {
	t.Helper()
	deadline := time.NewTimer(soon)
	defer deadline.Stop()
	look := time.NewTicker(2 * time.Millisecond)
	defer look.Stop()
	for !is() {
		select {
		case <-look.C:
		case <-deadline.C:
			t.Fatalf("not within %v: %s", soon, what)
		}
	}
}
