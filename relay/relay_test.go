package relay_test

import (
	"context"
	"testing"
	"testing/synctest"
	"time"

	"go.uber.org/goleak"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// startLoop runs a relay's loop in the test's bubble of fake time.
func startLoop(t *testing.T) (r *relay.Relay, events chan<- relay.Event, stop func()) {
	ctx, cancel := context.WithCancel(t.Context())
	r = relay.New(relay.NewShow(relaytest.Plan(), time.Now()), relay.NewTimebase(1))
	in, done := make(chan relay.Event), make(chan error)
	go func() { done <- r.Run(ctx, in) }()
	return r, in, func() {
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
}

// TestLoop runs the loop in fake time: events come in, silence is noticed by the
// timer alone, subscribers are told, and the loop ends with its context.
func TestLoop(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r, events, stop := startLoop(t)
		defer stop()
		subscription := r.Subscribe()
		<-subscription.C // the state as it is

		packet := relay.NewIntake(relaytest.FeedName).Read(time.Now(), []byte(relaytest.Packet(relaytest.Game{Moves: "e4"})))
		events <- packet
		synctest.Wait()
		<-subscription.C
		if got := len(r.Show().Boards); got != 1 {
			t.Errorf("%d boards, want 1", got)
		}
		time.Sleep(14 * time.Second)
		synctest.Wait()
		if r.Show().Feeds[0].State == relay.FeedStale {
			t.Error("stale too early")
		}
		time.Sleep(time.Second + 101*time.Millisecond) // the loop lets time pass a tenth of a second late
		synctest.Wait()
		if got := r.Show().Feeds[0].State; got != relay.FeedStale {
			t.Errorf("state %v after 15 s of silence, want stale", got)
		}
		subscription.Close()
	})
}

// TestTimebase: show time runs at its rate, and lengths convert back.
func TestTimebase(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		tb := relay.NewTimebase(20)
		start := tb.Now()
		time.Sleep(3 * time.Second)
		if got := tb.Now().Sub(start); got != time.Minute {
			t.Errorf("3 s of the wall are %v of the show, want 1 min", got)
		}
		if got := tb.Wall(time.Minute); got != 3*time.Second {
			t.Errorf("1 min of the show is %v of the wall, want 3 s", got)
		}
	})
}

// TestSlowSubscriber: however much happens, one signal waits and the newest
// state is there.
func TestSlowSubscriber(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r, events, stop := startLoop(t)
		defer stop()
		subscription := r.Subscribe()
		intake := relay.NewIntake(relaytest.FeedName)
		for _, moves := range []string{"e4", "e4 e5", "e4 e5 Nf3"} {
			events <- intake.Read(time.Now(), []byte(relaytest.Packet(relaytest.Game{Moves: moves})))
		}
		synctest.Wait()
		<-subscription.C
		if got := len(r.Show().Boards[0].Plies); got != 3 {
			t.Errorf("the newest state has %d plies, want 3", got)
		}
		select {
		case <-subscription.C:
			t.Error("a second signal waited")
		default:
		}
	})
}
