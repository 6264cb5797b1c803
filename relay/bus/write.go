package bus

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/nats-io/nats.go/jetstream"

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
	kept   []message // that wait for the bus
	bytes  int       // of those
	wrong  string    // why they wait
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
			wr.last = time.Now()
			wr.beat.Reset(b.o.BeatEvery)
		case <-changed:
			wr.plan()
			continue
		case <-retry.C:
			wr.retry(ctx)
			retry.Reset(retryEvery) // however long that took
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
	wr.retry(context.Background())
	if wr.cut {
		b.o.Log.Error("this process leaves, and the bus lacks what it has done last", "messages", b.Now().Kept, "dropped", b.Now().Dropped)
		return
	}
	text, err := json.Marshal(Lead{At: b.o.Now()})
	if err == nil {
		err = b.stream.append(context.Background(), ofLead, text)
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
	n, err := wr.bus.stream.appendAll(ctx, messages)
	wr.bus.state.set(func(now *Now) { now.Last, now.Appended = wr.bus.stream.last, now.Appended+uint64(n) })
	return n, err
}

// cutOff lets a process go on alone.
func (wr *writing) cutOff(err error) {
	wr.cut = true
	wr.bus.o.Log.Error("the bus fails", "err", err)
	if errors.Is(err, errElse) {
		wr.breakOff(otherwise)
		return
	}
	why := "takes nothing: " + err.Error()
	if errors.Is(err, ErrNoBus) {
		why = "does not answer" // why not is in the log
	}
	wr.say(fmt.Sprintf("the bus at %s %s; this process goes on by itself, and tells the others when it is back", redacted(wr.bus.o.URL), why))
}

func (wr *writing) say(wrong string) {
	wr.wrong = wrong
	wr.bus.state.set(func(n *Now) { n.Cut = true })
	wr.bus.say(wr.way, relay.BusLeads, wr.wrong)
}

// keep keeps messages for when the bus is back.
func (wr *writing) keep(messages []message) {
	for _, m := range messages {
		wr.bytes += len(m.data)
	}
	if most := wr.bus.kept; !wr.broken && (len(wr.kept)+len(messages) > most.messages || wr.bytes > most.bytes) {
		wr.breakOff("the bus was away for longer than this process can keep what happens")
	}
	if wr.broken {
		wr.bus.state.set(func(n *Now) { n.Dropped += uint64(len(messages)) })
		return
	}
	wr.kept = append(wr.kept, messages...)
	wr.bus.state.set(func(n *Now) { n.Kept = len(wr.kept) })
}

// limits are those of what waits for the bus.
type limits struct{ messages, bytes int }

// breakOff gives the bus up.
func (wr *writing) breakOff(why string) {
	n := len(wr.kept)
	wr.kept, wr.broken = nil, true
	wr.bus.state.set(func(now *Now) { now.Kept, now.Dropped = 0, now.Dropped+uint64(n) })
	wr.say(why + "; this process goes on by itself, and the others see nothing of it until it is started again")
}

// otherwise is what has become of a stream that is not as it was left.
const otherwise = "what the bus holds is not what this process knows: another has written, or the bus has lost it"

// retry appends what was kept, if the bus takes it now.
func (wr *writing) retry(ctx context.Context) {
	if !wr.cut || wr.broken {
		return
	}
	b := wr.bus
	err := wr.appendKept(ctx)
	b.state.set(func(n *Now) { n.Kept = len(wr.kept) })
	switch {
	case err == nil:
		wr.cut, wr.kept, wr.bytes = false, nil, 0
		b.state.set(func(n *Now) { n.Cut = false })
		b.o.Log.Info("the bus is back, and has all that happened meanwhile")
		b.say(wr.way, relay.BusLeads, "")
	case errors.Is(err, errElse) || b.lost(ctx) != nil:
		wr.breakOff(otherwise)
	default:
		b.say(wr.way, relay.BusLeads, wr.wrong) // more is kept than was told
	}
}

// appendKept appends what was kept. The error is errElse when what the bus has is of another
// process, and not the first of these, whose answer was lost.
func (wr *writing) appendKept(ctx context.Context) error {
	n, err := wr.appendAll(ctx, wr.kept)
	wr.kept = wr.kept[n:]
	if !errors.Is(err, errElse) || len(wr.kept) == 0 {
		return err
	}
	switch is, unread := wr.wasWritten(ctx); {
	case unread != nil:
		return unread
	case !is:
		return err
	}
	wr.kept = wr.kept[1:]
	n, err = wr.appendAll(ctx, wr.kept)
	wr.kept = wr.kept[n:]
	return err
}

// wasWritten reports that the first message that is kept is in the stream already. The error
// says that nobody knows.
func (wr *writing) wasWritten(ctx context.Context) (bool, error) {
	s := wr.bus.stream
	m, err := s.get(ctx, s.last+1)
	switch {
	case errors.Is(err, jetstream.ErrMsgNotFound):
		return false, nil
	case err != nil:
		return false, noBus(err)
	case m.Subject != s.subject+wr.kept[0].kind || m.Header.Get(headerEpoch) != s.epoch || !bytes.Equal(m.Data, wr.kept[0].data):
		return false, nil
	}
	s.last++
	return true, nil
}
