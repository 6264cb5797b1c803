package relay_test

import (
	"math/rand/v2"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestSubscriptionsComeAndGo: whoever is subscribed hears of every change, in whatever order the
// others come and go, and nobody else does.
func TestSubscriptionsComeAndGo(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r, events, stop := startLoop(t)
		defer stop()
		random := rand.New(rand.NewPCG(3, 1))
		var open, gone []*relay.Subscription
		for round := range 200 {
			for range random.IntN(4) {
				s := r.Subscribe()
				<-s.C // it begins with a signal
				open = append(open, s)
			}
			for range min(len(open), random.IntN(4)) {
				n := random.IntN(len(open))
				open[n].Close()
				gone = append(gone, open[n])
				open = append(open[:n], open[n+1:]...)
			}
			if len(gone) > 0 {
				gone[random.IntN(len(gone))].Close() // once more, which must not end another
			}
			events <- relay.AtPanel{At: time.Now(), ID: string(rune('a' + round)), Who: "Nadja", Act: relay.PanelAir, Text: "A sentence."}
			synctest.Wait()
			for n, s := range open {
				select {
				case <-s.C:
				default:
					t.Fatalf("round %d: subscription %d of %d was not told", round, n, len(open))
				}
			}
			for _, s := range gone {
				if len(s.C) > 0 {
					t.Fatalf("round %d: a closed subscription was told", round)
				}
			}
		}
	})
}

// TestSubscribeWith: a signal that waits already will do, and the channel is the caller's.
func TestSubscribeWith(t *testing.T) {
	tb := relay.NewTimebase(1)
	r := relay.New(relay.NewShow(relaytest.Plan(), tb.Now()), tb)
	wake := make(chan struct{}, 1)
	wake <- struct{}{}
	s := r.SubscribeWith(wake)
	defer s.Close()
	<-wake
	if len(wake) != 0 || len(s.C) != 0 {
		t.Error("more than one signal waited")
	}
	again := r.SubscribeWith(wake)
	defer again.Close()
	if len(wake) != 1 {
		t.Error("a subscription begins without a signal")
	}
}
