package relay_test

import (
	"context"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/relay"
)

// TestSharedShowWaitsForEvents: where several processes share a show, time passes by their
// events alone, from the first moment on. One that let it pass by itself would show other
// revisions than the rest.
func TestSharedShowWaitsForEvents(t *testing.T) {
	for _, shared := range []bool{false, true} {
		synctest.Test(t, func(t *testing.T) {
			tb := relay.NewTimebase(1)
			plan := relay.Plan{Feeds: []relay.FeedPlan{{Name: "arena", Late: time.Second, Stale: time.Minute}}}
			r := relay.New(relay.NewShow(plan, tb.Now().Add(-time.Hour)), tb) // an hour ago, and silent since
			if shared {
				r.Share()
			}
			ctx, cancel := context.WithCancel(t.Context())
			events, done := make(chan relay.Event), make(chan error, 1)
			go func() { done <- r.Run(ctx, events) }()
			was := r.Show()
			time.Sleep(time.Minute)
			if moved := r.Show() != was; moved == shared {
				t.Errorf("shared %t: moved by itself %t", shared, moved)
			}
			events <- relay.TimePassed{At: tb.Now()}
			synctest.Wait()
			if r.Show() == was {
				t.Errorf("shared %t: an event changes nothing", shared)
			}
			cancel()
			if err := <-done; err != nil {
				t.Error(err)
			}
		})
	}
}
