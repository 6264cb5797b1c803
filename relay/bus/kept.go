package bus

import (
	"bytes"
	"context"
	"errors"
	"fmt"

	"github.com/nats-io/nats.go/jetstream"

	"clocktell/relay"
)

// cutOff lets a process go on alone.
func (wr *writing) cutOff(err error) {
	wr.cut = true
	wr.bus.o.Log.Error("the bus fails", "err", err)
	if errors.Is(err, errElse) {
		wr.breakOff(otherwise)
		return
	}
	wr.say(whyAlone(wr.bus, whyNot(err, false)))
}

// whyAlone says that this process goes on by itself, and why.
func whyAlone(b *Bus, why string) string {
	return fmt.Sprintf("the bus at %s %s; this process goes on by itself, and tells the others when it is back", redacted(b.o.URL), why)
}

// whyNot says in words for people why the bus takes nothing; what it said itself is in the log. A
// server whose disk is full, or was once, gives no answer to whoever writes, but to others.
func whyNot(err error, answers bool) string {
	switch {
	case !errors.Is(err, ErrNoBus):
		return "takes nothing: " + err.Error()
	case answers:
		return "answers, and keeps nothing: see whether its disk is full, and start it again when there is room"
	}
	return "does not answer"
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

// turnMost is how many messages that were kept are appended at once: in between the show goes on.
const turnMost = 64

// retry appends the first of what was kept, if the bus takes it now, and reports that there is
// more of it.
func (wr *writing) retry(ctx context.Context) bool {
	if !wr.cut || wr.broken {
		return false
	}
	b := wr.bus
	err := wr.appendKept(ctx)
	b.state.set(func(n *Now) { n.Kept = len(wr.kept) })
	switch {
	case err == nil && len(wr.kept) > 0:
		return true
	case err == nil:
		wr.cut, wr.kept = false, nil
		b.state.set(func(n *Now) { n.Cut = false })
		b.o.Log.Info("the bus is back, and has all that happened meanwhile")
		b.say(wr.way, relay.BusLeads, "")
	case errors.Is(err, errElse):
		wr.breakOff(otherwise)
	default:
		wr.stillCut(wr.wrong, b.lost(ctx, b.stream.last) != nil)
	}
	return false
}

// stillCut goes on alone and says why, unless the bus has lost the show.
func (wr *writing) stillCut(why string, lost bool) {
	if lost {
		wr.breakOff(otherwise)
		return
	}
	wr.say(why) // if only that more is kept than was told
}

// appendKept appends the first of what was kept. The error is errElse when what the bus has is
// of another process, and not the first of these, whose answer was lost.
func (wr *writing) appendKept(ctx context.Context) error {
	err := wr.appendTurn(ctx)
	if !errors.Is(err, errElse) || len(wr.kept) == 0 {
		return err
	}
	switch is, unread := wr.wasWritten(ctx); {
	case unread != nil:
		return unread
	case !is:
		return err
	}
	wr.written(1)
	return wr.appendTurn(ctx)
}

func (wr *writing) appendTurn(ctx context.Context) error {
	n, err := wr.appendAll(ctx, wr.kept[:min(len(wr.kept), turnMost)])
	wr.written(n)
	return err
}

// written takes the first n of the messages that are kept from them.
func (wr *writing) written(n int) {
	for _, m := range wr.kept[:n] {
		wr.bytes -= len(m.data)
	}
	wr.kept = wr.kept[n:]
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
