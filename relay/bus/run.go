package bus

import (
	"context"
	"encoding/json"
	"errors"

	"golang.org/x/sync/errgroup"

	"clocktell/relay"
)

// errDeposed says that this process may not lead any more.
var errDeposed = errors.New("this process leads no more")

// way is how events go on.
type way chan<- relay.Event

func (w way) send(events ...relay.Event) {
	for _, e := range events {
		w <- e
	}
}

// Run sends to out what happens to the show, in order, until ctx ends: what is read from the
// stream while another process leads, and what is taken from in and has been appended while
// this one does. Whoever reads out must do so until Run returns: what has been appended is to be
// known here, too. A signal on changed tells that Options.Due may have another answer. The
// error is ErrAnew, ErrLed, or that of Options.Lead.
func (b *Bus) Run(ctx context.Context, in <-chan relay.Event, out chan<- relay.Event, changed <-chan struct{}) error {
	w := way(out)
	for ctx.Err() == nil {
		if !b.leads {
			if err := b.follow(ctx, w); err != nil {
				return endOf(ctx, err)
			}
			drain(in) // who entered it when this process led before was told that it was not done
		}
		err := b.lead(ctx, in, changed, w)
		b.leads = false
		drain(in)
		b.o.Deposed()
		if ctx.Err() != nil || !errors.Is(err, errDeposed) {
			return endOf(ctx, err)
		}
		b.o.Log.Warn("this process leads the show no more", "why", err)
	}
	return nil
}

// endOf is why Run ends: nothing is wrong when it was told to.
func endOf(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return nil
	}
	return err
}

// drain forgets what was heard and not appended: a feed says it again, and who entered it is
// not told that it was done.
func drain(in <-chan relay.Event) {
	for {
		select {
		case <-in:
		default:
			return
		}
	}
}

// lead reads the feeds and writes what they say, until another process leads or ctx ends.
func (b *Bus) lead(ctx context.Context, in <-chan relay.Event, changed <-chan struct{}, w way) error {
	if now := b.o.Now(); now.Before(b.latest) {
		b.o.Set(b.latest) // the clock of the leader before went ahead of ours
	}
	b.state.set(func(n *Now) { n.Role, n.Leader, n.Terms, n.Cut = relay.BusLeads, b.o.ID, n.Terms+1, false })
	b.o.Log.Info("this process leads the show", "behind", b.stream.last)
	b.told = true
	b.say(w, relay.BusLeads, "")
	group, leading := errgroup.WithContext(ctx)
	group.Go(func() error { return b.o.Lead(leading) })
	group.Go(func() error { return b.answer(leading) })
	group.Go(func() error { return b.write(leading, in, changed, w) })
	return group.Wait()
}

// claim appends that this process leads from now on.
func (b *Bus) claim(ctx context.Context) error {
	text, err := json.Marshal(Lead{ID: b.o.ID, At: b.o.Now(), Alone: !b.o.Pair})
	if err != nil {
		return err
	}
	err = b.append(ctx, message{ofLead, text})
	if err == nil {
		b.part, b.leader, b.alone = nil, b.o.ID, !b.o.Pair // a message that was begun has not come to its end
	}
	return err
}
