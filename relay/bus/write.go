package bus

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"time"

	"clocktell/relay"
)

// beatLeast is how long a leader waits at least between two beats.
const beatLeast = 20 * time.Millisecond

// writing is one time of leading.
type writing struct {
	bus  *Bus
	way  way
	beat *time.Timer

	// Of a process that goes on alone.
	kept   []message // that wait for the bus
	cut    bool
	broken bool // there is no way back to the bus
}

// write appends what comes from in, and passes it on.
func (b *Bus) write(ctx context.Context, in <-chan relay.Event, changed <-chan struct{}, w way) error {
	wr := &writing{bus: b, way: w, beat: time.NewTimer(0)}
	defer wr.beat.Stop()
	retry := time.NewTicker(retryEvery)
	defer retry.Stop()
	for {
		var events []relay.Event
		select {
		case e := <-in:
			events = batch(e, in)
		case <-wr.beat.C:
			events = []relay.Event{relay.TimePassed{At: b.o.Now().Add(-relay.Lag)}}
			wr.beat.Reset(b.o.BeatEvery)
		case <-changed:
			wr.plan()
			continue
		case <-retry.C:
			wr.retry(ctx)
			continue
		case <-ctx.Done():
			return nil
		}
		if err := wr.put(ctx, events); err != nil {
			return err
		}
	}
}

// plan lets the next beat come when time changes something.
func (wr *writing) plan() {
	due := wr.bus.o.Due()
	if due < 0 || due > wr.bus.o.BeatEvery {
		due = wr.bus.o.BeatEvery
	}
	wr.beat.Reset(max(due, beatLeast))
}

// batch returns an event and those that wait behind it.
func batch(first relay.Event, in <-chan relay.Event) []relay.Event {
	events := []relay.Event{first}
	for len(events) < batchMost {
		select {
		case e := <-in:
			events = append(events, e)
		default:
			return events
		}
	}
	return events
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
	} else if n, err := b.stream.appendAll(ctx, messages); err != nil {
		if b.o.Pair {
			return fmt.Errorf("%w: %w", errDeposed, err)
		}
		wr.cutOff(err)
		wr.keep(messages[n:])
	}
	b.saw(events)
	b.state.set(func(n *Now) { n.Last, n.Appended = b.stream.last, n.Appended+uint64(len(messages)) })
	for _, e := range events {
		own, err := b.o.Take(e, true)
		if err != nil {
			return err
		}
		wr.way.send(own)
	}
	return nil
}

// cutOff lets a process go on alone.
func (wr *writing) cutOff(err error) {
	wr.cut, wr.broken = true, errors.Is(err, errElse)
	wr.bus.o.Log.Error("the bus fails", "err", err)
	wr.say(err)
}

func (wr *writing) say(err error) {
	wrong := fmt.Sprintf("the bus at %s takes nothing (%v); this process goes on by itself, and tells the others when it is back", redacted(wr.bus.o.URL), err)
	if wr.broken {
		wrong = "what the bus holds is not what this process knows: another has written, or the bus has lost it; this process goes on by itself, " +
			"and the others see nothing of it until it is started again"
	}
	wr.bus.state.set(func(n *Now) { n.Cut = true })
	wr.bus.say(wr.way, relay.BusLeads, wrong)
}

// keep keeps messages for when the bus is back.
func (wr *writing) keep(messages []message) {
	if !wr.broken && len(wr.kept)+len(messages) > keptMost {
		wr.kept, wr.broken = nil, true
		wr.say(nil)
	}
	if wr.broken {
		wr.bus.state.set(func(n *Now) { n.Kept, n.Dropped = 0, n.Dropped+uint64(len(messages)) })
		return
	}
	wr.kept = append(wr.kept, messages...)
	wr.bus.state.set(func(n *Now) { n.Kept = len(wr.kept) })
}

// retry appends what was kept, if the bus takes it now.
func (wr *writing) retry(ctx context.Context) {
	if !wr.cut || wr.broken {
		return
	}
	b := wr.bus
	n, err := b.stream.appendAll(ctx, wr.kept)
	if wr.kept = wr.kept[n:]; errors.Is(err, errElse) && wr.wasWritten(ctx) {
		wr.kept = wr.kept[1:] // its answer was lost
		n, err = b.stream.appendAll(ctx, wr.kept)
		wr.kept = wr.kept[n:]
	}
	b.state.set(func(now *Now) { now.Kept, now.Last = len(wr.kept), b.stream.last })
	switch {
	case err == nil:
		wr.cut, wr.kept = false, nil
		b.state.set(func(n *Now) { n.Cut = false })
		b.o.Log.Info("the bus is back, and has all that happened meanwhile")
		b.say(wr.way, relay.BusLeads, "")
	case errors.Is(err, errElse):
		wr.broken, wr.kept = true, nil
		wr.say(err)
	}
}

// wasWritten reports that the first message that is kept is in the stream already.
func (wr *writing) wasWritten(ctx context.Context) bool {
	s := wr.bus.stream
	m, err := s.get(ctx, s.last+1)
	if err != nil || len(wr.kept) == 0 || m.Subject != s.subject+wr.kept[0].kind || !bytes.Equal(m.Data, wr.kept[0].data) {
		return false
	}
	s.last++
	return true
}
