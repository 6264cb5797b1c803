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
	start time.Time     // wall time, with its monotonic reading
	show  time.Time     // show time then; without one, as the journal keeps it
	moved *atomic.Int64 // nanoseconds by which it has been set since; shared by all copies
}

// NewTimebase returns show time starting now.
func NewTimebase(rate float64) Timebase {
	return NewTimebaseAt(time.Now(), rate)
}

// NewTimebaseAt returns show time that is at the given instant now.
func NewTimebaseAt(show time.Time, rate float64) Timebase {
	return Timebase{Rate: rate, start: time.Now(), show: show.Round(0).UTC(), moved: new(atomic.Int64)}
}

// Set makes it that instant now, in all copies: where another process has the time that counts.
func (tb Timebase) Set(show time.Time) { tb.moved.Add(int64(show.Sub(tb.Now()))) }

// Now returns show time now.
func (tb Timebase) Now() time.Time {
	return tb.Show(time.Now())
}

// Show returns the show time of a wall time.
func (tb Timebase) Show(wall time.Time) time.Time {
	since := time.Duration(float64(wall.Sub(tb.start)) * tb.Rate)
	if tb.moved != nil {
		since += time.Duration(tb.moved.Load())
	}
	return tb.show.Add(since)
}

// Wall returns how much wall time a length of show time takes.
func (tb Timebase) Wall(d time.Duration) time.Duration {
	return time.Duration(float64(d) / tb.Rate)
}

// Lag is how far behind the wall the loop lets time alone pass. An event is stamped
// when it comes, and reaches the loop once it is written down: it must not find that
// the show is past its time already, or the show would not be what its events make
// it, and not come back the same from the journal.
const Lag = 100 * time.Millisecond

// Relay holds the show and lets it go on.
type Relay struct {
	time   Timebase
	past   *History
	shared bool
	show   atomic.Pointer[Show]

	mu            sync.Mutex      // protects following
	subscriptions []*Subscription // in no order
}

// New returns a relay that goes on from a show.
func New(show *Show, tb Timebase) *Relay { return NewAfter(NewHistory(), show, tb) }

// NewAfter returns a relay that goes on from a show, of which scenes that are held back
// are shown the past first.
func NewAfter(past *History, show *Show, tb Timebase) *Relay {
	r := &Relay{time: tb, past: past}
	past.keep(tb.Now(), show)
	r.show.Store(show)
	return r
}

// Share lets time pass with relay.TimePassed alone, because other processes let the same show
// go on. It must be called before Run.
func (r *Relay) Share() { r.shared = true }

// Show returns the newest state, to be read and kept at will.
func (r *Relay) Show() *Show { return r.show.Load() }

// ShownAt returns the show that was on the scenes at a show time up to HoldMost ago, nil
// where nobody knows, and when the next one came; zero: none has.
func (r *Relay) ShownAt(t time.Time) (show *Show, next time.Time) { return r.past.at(t) }

// History returns how much of the past is kept.
func (r *Relay) History() HistoryNow { return r.past.now() }

// Run is the loop, the one place where the show changes. It returns when ctx
// ends.
func (r *Relay) Run(ctx context.Context, events <-chan Event) error {
	timer := time.NewTimer(0)
	defer timer.Stop()
	if r.shared {
		timer.Stop() // not even the time since the last event passes by itself
	}
	for {
		select {
		case event := <-events:
			r.publish(r.Show().After(event))
		case <-timer.C:
			r.publish(r.Show().AdvancedTo(r.time.Show(time.Now().Add(-Lag))))
		case <-ctx.Done():
			return nil
		}
		r.plan(timer)
	}
}

func (r *Relay) publish(show *Show) {
	if show == r.Show() {
		return
	}
	// Of an edge the clock may be a little behind what it hears of, and be set right later: what
	// is held back must not come early then.
	r.past.keep(later(r.time.Now(), show.At), show)
	r.show.Store(show)
	r.mu.Lock()
	defer r.mu.Unlock()
	for _, s := range r.subscriptions {
		s.signal()
	}
}

// plan sets the timer to the next instant that matters.
func (r *Relay) plan(timer *time.Timer) {
	due := r.Show().Due()
	if due.IsZero() || r.shared {
		timer.Stop()
		return
	}
	timer.Reset(max(0, r.time.Wall(due.Sub(r.time.Now()))+Lag))
}
