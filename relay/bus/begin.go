package bus

import (
	"context"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"clocktell/relay"
)

// Beginning is what a show is told before it starts. It stands before its events.
type Beginning struct {
	Epoch string    `json:"epoch"` // tells one beginning from others
	Title string    `json:"title"`
	Plan  string    `json:"plan"` // in the words of whoever began it
	Rate  float64   `json:"rate"` // of show time, 1 being that of the wall
	Began time.Time `json:"began"`
	By    string    `json:"by"` // the process that began it

	// Events is how many events that had happened already follow. Without all of them the
	// process that began the show was ended meanwhile.
	Events int  `json:"events,omitempty"`
	Alone  bool `json:"alone,omitempty"` // as Lead has it
}

// Lead says that a process leads from there on.
type Lead struct {
	ID    string    `json:"id"`              // "": the one that led has left
	At    time.Time `json:"at"`              // show time
	Alone bool      `json:"alone,omitempty"` // without the bus it goes on, and nobody may stand by
}

// Bus is one process's part in a show. Its methods belong to one goroutine but for Ask, Now and
// Close.
type Bus struct {
	o      Options
	stream *stream
	self   string // tells its messages from those of others, also of the same process
	part   []byte // of a message that goes on
	state  state

	begin   Beginning
	beginAt uint64    // its number; 0: there is none
	latest  time.Time // of all events read or written
	leads   bool      // it has written the last message
	leader  string    // as far as it was read
	left    bool      // by the one that led
	alone   bool      // so the one goes on that leads, or led last
	timed   bool      // Led has set show time
	told    bool      // the show has been told how the bus is
	answers bool      // the bus has, when it was asked last how far the show has come
	kept    limits    // of what waits for the bus

	alienTold bool   // the log has been told of a message that is not of the show
	known     int    // events read or written since the beginning
	waiting   uint64 // messages behind the one that was read last, when it was sent
}

// Open connects, and looks for the show. The error wraps ErrNoBus.
func Open(ctx context.Context, o Options) (*Bus, error) {
	b := &Bus{o: o.withDefaults(), self: rand.Text(), kept: limits{keptMost, keptBytesMost}}
	if err := CheckShow(b.o.Show); err != nil {
		return nil, err
	}
	var err error
	if b.stream, err = connect(&b.o); err != nil {
		return nil, fmt.Errorf("bus at %s: %w", redacted(b.o.URL), err)
	}
	if err := patiently(ctx, b.find); err != nil {
		b.Close()
		return nil, fmt.Errorf("bus at %s: %w", redacted(b.o.URL), err)
	}
	if b.beginAt > 0 && !b.o.Follow {
		if err := b.stream.make(ctx); err != nil { // the limits may be others than before
			b.o.Log.Warn("the stream of the show keeps the limits that it has", "err", err)
		}
	}
	return b, nil
}

// find looks for the beginning of the show that is on the bus.
func (b *Bus) find(ctx context.Context) error {
	m, err := b.stream.lastOf(ctx, ofBegin)
	if err != nil || m == nil {
		return err
	}
	if err := json.Unmarshal(m.Data, &b.begin); err != nil {
		return fmt.Errorf("the beginning of the show cannot be read: %w", err)
	}
	b.beginAt, b.latest, b.known = m.Sequence, b.begin.Began, 0
	b.stream.last, b.stream.epoch, b.alone = m.Sequence, b.begin.Epoch, b.begin.Alone
	b.state.ledBy(b.begin.By) // until the stream tells of another
	return nil
}

// Beginning returns the beginning of the show on the bus; false: there is none.
func (b *Bus) Beginning() (Beginning, bool) { return b.begin, b.beginAt > 0 }

// Alone reports that whoever leads the show, or led it last, goes on without the bus: a process
// that took the show over then would make two of it.
func (b *Bus) Alone() bool { return b.alone }

// Whole reports that the show has all that it was begun with, as far as this process has read.
func (b *Bus) Whole() bool { return b.known >= b.begin.Events }

// Latest returns the time of the last event of the show that this process knows.
func (b *Bus) Latest() time.Time { return b.latest }

// Led reports whether a process leads the show: it is heard within the lease. What it says is
// read and told to take, and show time is set by it: pages come before the next beat does.
func (b *Bus) Led(ctx context.Context, take func(relay.Event)) (bool, error) {
	r, err := b.reader(ctx)
	if err != nil {
		return false, err
	}
	defer r.close()
	for {
		events, err := r.next(ctx)
		for _, e := range events {
			take(e)
			b.o.Set(saidAt(e))
		}
		switch {
		case errors.Is(err, errSilent):
			b.left = true // nobody is waited for a second time
			return false, nil
		case err != nil:
			return false, err
		case b.waiting == 0: // what waited tells nothing of now
			b.timed = true
			return true, nil
		}
	}
}

// Await waits until there is a show on the bus, and says in the log that it does.
func (b *Bus) Await(ctx context.Context) error {
	if b.beginAt == 0 {
		b.o.Log.Warn("the bus carries no show of this name yet; this process waits for one", "show", b.o.Show)
	}
	for b.beginAt == 0 {
		if err := b.find(ctx); err != nil && !errors.Is(err, ErrNoBus) {
			return err
		}
		if b.beginAt == 0 && !pause(ctx, retryEvery) {
			return ctx.Err()
		}
	}
	return nil
}

// Begin begins the show anew, with events that have happened already, and takes what was
// there from the bus. The error is ErrAnew when there is more than this process has read:
// somebody else has begun a show, or leads the one that was there.
func (b *Bus) Begin(ctx context.Context, begin Beginning, events []relay.Event) error {
	if err := b.stream.make(ctx); err != nil {
		return fmt.Errorf("the stream of the show: %w", err)
	}
	if b.beginAt == 0 { // nothing was read
		if err := b.behindAll(ctx); err != nil {
			return err
		}
	}
	begin.Alone, begin.Events = !b.o.Pair, len(events)
	b.stream.epoch, b.part, b.left, b.leader, b.alone = begin.Epoch, nil, false, b.o.ID, begin.Alone
	text, err := json.Marshal(begin)
	if err != nil {
		return err
	}
	if err := b.stream.append(ctx, ofBegin, text); err != nil {
		return anew(err)
	}
	b.begin, b.beginAt, b.latest, b.leads, b.known = begin, b.stream.last, begin.Began, true, 0
	for len(events) > 0 {
		n := min(len(events), batchMost)
		messages, err := b.stream.messages(events[:n])
		if err != nil {
			return err
		}
		if _, err := b.appendAll(ctx, messages); err != nil {
			return anew(err)
		}
		b.saw(events[:n])
		events = events[n:]
	}
	return b.stream.forget(ctx, b.beginAt)
}

// behindAll goes to the end of a stream that has no show; ErrAnew: by now it has one.
func (b *Bus) behindAll(ctx context.Context) error {
	last, _, err := b.stream.end(ctx)
	if err != nil {
		return err
	}
	if m, err := b.stream.lastOf(ctx, ofBegin); err != nil {
		return err
	} else if m != nil {
		return ErrAnew
	}
	b.stream.last = last
	return nil
}

func anew(err error) error {
	if errors.Is(err, errElse) {
		return ErrAnew
	}
	return err
}

// saw notes how far the show has come.
func (b *Bus) saw(events []relay.Event) {
	b.known += len(events)
	for _, e := range events {
		if at := e.When(); at.After(b.latest) {
			b.latest = at
		}
	}
}

// patiently does something again that a busy bus did not answer: a start is not to fail for that.
func patiently(ctx context.Context, do func(context.Context) error) error {
	ctx, cancel := context.WithTimeout(ctx, connectWait)
	defer cancel()
	for {
		if err := do(ctx); !errors.Is(err, ErrNoBus) || !pause(ctx, reconnectGap) {
			return err
		}
	}
}

// Close leaves the bus.
func (b *Bus) Close() { b.stream.close() }

// pause waits; false when ctx ends first.
func pause(ctx context.Context, d time.Duration) bool {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
		return true
	case <-ctx.Done():
		return false
	}
}
