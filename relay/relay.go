package relay

import (
	"context"
	"sync"
	"sync/atomic"
	"time"
)

// Timebase is show time. It runs Rate times as fast as the wall: 1 for a show,
// more in a demo or a rehearsal.
type Timebase struct {
	Rate  float64
	start time.Time
}

// NewTimebase returns show time starting now.
func NewTimebase(rate float64) Timebase {
	return Timebase{Rate: rate, start: time.Now()}
}

// Now returns show time now.
func (tb Timebase) Now() time.Time {
	return tb.Show(time.Now())
}

// Show returns the show time of a wall time.
func (tb Timebase) Show(wall time.Time) time.Time {
	return tb.start.Add(time.Duration(float64(wall.Sub(tb.start)) * tb.Rate))
}

// Wall returns how much wall time a length of show time takes.
func (tb Timebase) Wall(d time.Duration) time.Duration {
	return time.Duration(float64(d) / tb.Rate)
}

// Relay holds the show and lets it go on.
type Relay struct {
	time Timebase
	show atomic.Pointer[Show]

	mu            sync.Mutex // protects following
	subscriptions map[*Subscription]struct{}
}

// New returns a relay with nothing on it yet.
func New(plan Plan, tb Timebase) *Relay {
	r := &Relay{time: tb, subscriptions: make(map[*Subscription]struct{})}
	r.show.Store(NewShow(plan, tb.Now()))
	return r
}

// Show returns the newest state, to be read and kept at will.
func (r *Relay) Show() *Show { return r.show.Load() }

// Subscribe returns a subscription that already holds one signal, so that a
// viewer starts with the state as it is.
func (r *Relay) Subscribe() *Subscription {
	c := make(chan struct{}, 1)
	s := &Subscription{C: c, c: c, relay: r}
	s.signal()
	r.mu.Lock()
	defer r.mu.Unlock()
	r.subscriptions[s] = struct{}{}
	return s
}

// Run is the loop, the one place where the show changes. It returns when ctx
// ends.
func (r *Relay) Run(ctx context.Context, events <-chan Event) error {
	timer := time.NewTimer(0)
	defer timer.Stop()
	for {
		select {
		case event := <-events:
			r.apply(event)
		case <-timer.C:
			r.advance(r.time.Now())
		case <-ctx.Done():
			return nil
		}
		r.plan(timer)
	}
}

// apply lets time pass up to the event first, instant by instant as the timer
// would have, so that the same events always give the same show.
func (r *Relay) apply(event Event) {
	show := r.Show().AdvancedTo(event.When())
	r.publish(show.Apply(event))
}

func (r *Relay) advance(t time.Time) {
	r.publish(r.Show().AdvancedTo(t))
}

func (r *Relay) publish(show *Show) {
	if show == r.Show() {
		return
	}
	r.show.Store(show)
	r.mu.Lock()
	defer r.mu.Unlock()
	for s := range r.subscriptions {
		s.signal()
	}
}

// plan sets the timer to the next instant that matters.
func (r *Relay) plan(timer *time.Timer) {
	due := r.Show().Due()
	if due.IsZero() {
		timer.Stop()
		return
	}
	timer.Reset(max(0, r.time.Wall(due.Sub(r.time.Now()))))
}
