package bus

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"golang.org/x/sync/errgroup"

	"clocktell/relay"
)

// beatLeast is how long a leader waits at least between two beats.
const beatLeast = 20 * time.Millisecond

// writing is one time of leading.
type writing struct {
	bus  *Bus
	way  way
	beat *time.Timer
	last time.Time // wall, of the last beat

	// Of a process that goes on alone.
	trials trials
	kept   []message // that wait for the bus
	bytes  int       // of those
	wrong  string    // why they wait
	cut    bool
	broken bool // there is no way back to the bus
}

// write appends what comes from in, and passes it on.
func (b *Bus) write(ctx context.Context, in <-chan relay.Event, changed <-chan struct{}, w way) error {
	wr := &writing{bus: b, way: w, beat: time.NewTimer(0), trials: newTrials()}
	defer wr.beat.Stop()
	ctx, stop := context.WithCancel(ctx)
	var asking errgroup.Group
	asking.Go(func() error { return b.askWhileCut(ctx, wr.trials) })
	defer asking.Wait()
	defer stop()
	for {
		var events []relay.Event
		select {
		case e := <-in:
			events = batch(e, in)
		case <-wr.beat.C:
			events = []relay.Event{relay.TimePassed{At: b.o.Now().Add(-relay.Lag)}}
			wr.last = time.Now()
			wr.beat.Reset(b.o.BeatEvery)
		case <-changed:
			wr.plan()
			continue
		case <-wr.trials.back:
			wr.trials.of <- wr.next()
			continue
		case r := <-wr.trials.done:
			wr.tried(r)
			continue
		case <-wr.trials.more:
			if wr.retry(ctx) {
				again(wr.trials.more)
			}
			continue
		case <-ctx.Done():
		}
		if ctx.Err() != nil { // whatever else has come: nobody would be told of it here
			wr.leave()
			return nil
		}
		if err := wr.put(ctx, events); err != nil {
			return err
		}
	}
}

// leave lets another process lead at once.
func (wr *writing) leave() {
	b := wr.bus
	for wr.retry(context.Background()) {
	}
	if wr.cut {
		b.o.Log.Error("this process leaves, and the bus lacks what it has done last", "messages", b.Now().Kept, "dropped", b.Now().Dropped)
		return
	}
	text, err := json.Marshal(Lead{At: b.o.Now()})
	if err == nil {
		err = b.append(context.Background(), message{ofLead, text})
	}
	if err != nil {
		b.o.Log.Warn("that this process leaves could not be told", "err", err) // others notice by its silence
	}
	b.state.set(func(n *Now) { n.Last = b.stream.last })
}

// plan lets the next beat come when time changes something, and however often the show
// changes no later than it had to: by beats alone others know what time it is.
func (wr *writing) plan() {
	due, latest := wr.bus.o.Due(), wr.bus.o.BeatEvery-time.Since(wr.last)
	if due < 0 || due > latest {
		due = latest
	}
	wr.beat.Reset(max(due, beatLeast))
}

// put appends events and passes them on. The error says that this process leads no more.
func (wr *writing) put(ctx context.Context, events []relay.Event) error {
	b := wr.bus
	messages, err := b.stream.messages(events)
	if err != nil {
		return err
	}
	if wr.cut {
		wr.keep(messages)
	} else if n, err := wr.appendAll(ctx, messages); err != nil {
		if err := wr.fails(messages, n, err); err != nil {
			return err
		}
	}
	b.saw(events)
	for _, e := range events {
		own, err := b.o.Take(e, true)
		if err != nil {
			return err
		}
		wr.way.send(own)
	}
	return nil
}

// fails is for messages of which only the first n are known to be in the stream. The error
// says that this process leads no more.
func (wr *writing) fails(messages []message, n int, err error) error {
	if wr.bus.o.Pair {
		wr.bus.begun(messages[:n])
		return fmt.Errorf("%w: %w", errDeposed, err)
	}
	wr.cutOff(err)
	wr.keep(messages[n:])
	return nil
}

// appendAll appends messages, and returns how many.
func (wr *writing) appendAll(ctx context.Context, messages []message) (int, error) {
	n, err := wr.bus.appendAll(ctx, messages)
	wr.bus.state.set(func(now *Now) { now.Last, now.Appended = wr.bus.stream.last, now.Appended+uint64(n) })
	return n, err
}
