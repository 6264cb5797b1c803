package bus

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"

	"github.com/nats-io/nats.go/jetstream"

	"clocktell/relay"
)

// errSilent says that no message has come for some time, or that the stream has to be read
// anew from where this process is.
var errSilent = errors.New("silence")

// reader reads the stream from where this process is.
type reader struct {
	bus      *Bus
	messages jetstream.MessagesContext
	end      uint64 // number of the last message that the bus held when this was opened
}

func (b *Bus) reader(ctx context.Context) (*reader, error) {
	messages, are, err := b.stream.readAfter(ctx, b.stream.last)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrNoBus, err)
	}
	return &reader{bus: b, messages: messages, end: b.stream.last + are}, nil
}

// caughtUp reports that this process has all that the bus held when it began to read.
func (r *reader) caughtUp() bool { return r.bus.stream.last >= r.end }

func (r *reader) close() { r.messages.Stop() }

// next waits for a message, and returns its events, which may be none. The error is errSilent
// when none has come within the lease, or ErrAnew.
func (r *reader) next(ctx context.Context) ([]relay.Event, error) {
	waited, cancel := context.WithTimeout(ctx, r.bus.o.Lease)
	defer cancel()
	for {
		m, err := r.messages.Next(jetstream.NextContext(waited))
		switch {
		case ctx.Err() != nil:
			return nil, ctx.Err()
		case err != nil:
			return nil, errSilent // or the line is broken, which is the same to whoever listens
		}
		if events, err := r.bus.read(ctx, m); !errors.Is(err, errAlien) {
			return events, err
		}
	}
}

// read takes a message of the stream.
func (b *Bus) read(ctx context.Context, m jetstream.Msg) ([]relay.Event, error) {
	meta, err := m.Metadata()
	if err != nil {
		return nil, err
	}
	seq := meta.Sequence.Stream
	switch {
	case seq <= b.stream.last:
		return nil, nil // read already
	case seq != b.stream.last+1:
		return nil, b.gap(ctx)
	}
	kind := b.stream.kindOf(m.Subject())
	switch is, err := b.alien(ctx, kind, m.Headers().Get(headerEpoch)); {
	case errors.Is(err, ErrAnew):
		return nil, err // the stream was lost and made again, and has come as far as that one
	case err != nil:
		return nil, errSilent
	case is:
		b.passOver(seq)
		return nil, errAlien
	}
	return b.take(kind, seq, meta.NumPending, m.Data())
}

// take takes a message of the show.
func (b *Bus) take(kind string, seq, waiting uint64, data []byte) ([]relay.Event, error) {
	b.stream.last, b.waiting = seq, waiting
	b.state.set(func(n *Now) { n.Last = seq })
	switch kind {
	case ofPart:
		b.part = append(b.part, data...)
		return nil, nil
	case ofEvent:
		whole := append(b.part, data...)
		b.part = nil
		return b.events(whole)
	case ofLead:
		b.part = nil // whoever wrote it has not come to its end
		return nil, b.ledBy(data)
	}
	return nil, ErrAnew
}

// begun notes what this process has written itself of a message that is not all of it: it may
// read the rest, if that got there and the answer was lost.
func (b *Bus) begun(parts []message) {
	for _, m := range parts {
		b.part = append(b.part, m.data...)
	}
}

// gap says why messages are left out: they were lost on the way, or are in the stream no more.
func (b *Bus) gap(ctx context.Context) error {
	first, err := b.stream.first(ctx)
	if err != nil || first <= b.stream.last+1 {
		return errSilent
	}
	return ErrAnew
}

func (b *Bus) events(message []byte) ([]relay.Event, error) {
	events, err := decode(message, b.o.Book)
	if err != nil {
		return nil, fmt.Errorf("message %d of the show: %w", b.stream.last, err)
	}
	b.saw(events)
	for i, e := range events {
		if events[i], err = b.o.Take(e, false); err != nil {
			return nil, fmt.Errorf("message %d of the show: %w", b.stream.last, err)
		}
	}
	return events, nil
}

func (b *Bus) ledBy(message []byte) error {
	var lead Lead
	if err := json.Unmarshal(message, &lead); err != nil {
		return fmt.Errorf("message %d of the show: %w", b.stream.last, err)
	}
	b.state.ledBy(lead.ID)
	b.leader, b.left = lead.ID, lead.ID == ""
	if b.left {
		return errSilent // it has left, and is not waited for
	}
	b.alone = lead.Alone
	return nil
}

// Past gives what the stream holds of the show so far, in order.
func (b *Bus) Past(ctx context.Context, take func(relay.Event)) error {
	var last uint64
	err := patiently(ctx, func(ctx context.Context) (err error) {
		last, _, err = b.stream.end(ctx)
		return err
	})
	if err != nil {
		return err
	}
	return b.past(ctx, last, take)
}

// past reads up to a number that the stream has come to. The error is ErrAnew when the bus has lost that.
func (b *Bus) past(ctx context.Context, last uint64, take func(relay.Event)) error {
	for b.stream.last < last {
		err := b.pastTo(ctx, last, take)
		if errors.Is(err, errSilent) {
			err = b.lost(ctx, last)
			pause(ctx, min(b.o.Lease/16, reconnectGap)) // it may be silent at once
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (b *Bus) pastTo(ctx context.Context, last uint64, take func(relay.Event)) error {
	var r *reader
	err := patiently(ctx, func(ctx context.Context) (err error) {
		r, err = b.reader(ctx)
		return err
	})
	if err != nil {
		return err
	}
	defer r.close()
	for b.stream.last < last {
		events, err := r.next(ctx)
		if err != nil {
			return err
		}
		for _, e := range events {
			take(e)
		}
	}
	return nil
}
