package journal

import (
	"testing"
	"time"

	"clocktell/relay"
)

// TestTookIsToldOfEachCommit: as many times as there were commits, the last with what
// Stats says.
func TestTookIsToldOfEachCommit(t *testing.T) {
	o := options(t.TempDir())
	var took []time.Duration
	o.Took = func(d time.Duration) { took = append(took, d) }
	j := mustOpen(t, o)
	through(t, j, relay.FeedFailed{At: start, Feed: "hall", Reason: "timeout"})
	through(t, j, relay.FeedFailed{At: start.Add(time.Second), Feed: "hall", Reason: "timeout"})
	if s := j.Stats(); s.Commits < 2 || uint64(len(took)) != s.Commits || took[len(took)-1] != s.LastCommit || s.LastCommit <= 0 {
		t.Errorf("told %v of %d commits, the last of which took %v", took, s.Commits, s.LastCommit)
	}
	mustClose(t, j)
}
