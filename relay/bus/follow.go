package bus

import (
	"context"
	"errors"
	"fmt"
	"time"

	"clocktell/relay"
)

// follow passes on what the stream holds, until this process leads.
func (b *Bus) follow(ctx context.Context, w way) error {
	f := b.newFollowing(w)
	for {
		if !b.left {
			if err := f.listen(ctx); !errors.Is(err, errSilent) {
				return err
			}
		}
		all, err := b.all(ctx)
		if err != nil {
			return err
		}
		if all || b.told {
			f.say(f.told.Wrong) // the one that led may have left
		}
		if !b.left && time.Since(f.heard) < b.o.Lease {
			if !pause(ctx, min(b.o.Lease/16, reconnectGap)) {
				return ctx.Err()
			}
			continue // the line broke, and is to be read anew
		}
		b.left, f.began = false, time.Now()
		err = errSilent
		if !b.o.Follow {
			err = b.claim(ctx)
		}
		switch {
		case err == nil:
			return nil
		case ctx.Err() != nil:
			return ctx.Err()
		case errors.Is(err, errElse):
			continue // there is more to read
		}
		f.tell(err)
		if !pause(ctx, b.o.Lease/4) {
			return ctx.Err()
		}
	}
}

// all reports that this process has all that the bus holds. The error is ErrAnew when the bus has
// lost the show, or holds another one. A bus that does not answer tells nothing.
func (b *Bus) all(ctx context.Context) (bool, error) {
	last, found, err := b.stream.end(ctx)
	b.answers = err == nil
	if err == nil && (!found || last < b.stream.last) {
		return false, ErrAnew
	}
	return err == nil && last == b.stream.last, nil
}

// lost is ErrAnew when the bus does not hold a message any more that it has held, nor one behind it.
func (b *Bus) lost(ctx context.Context, had uint64) error {
	if last, found, err := b.stream.end(ctx); err == nil && (!found || last < had) {
		return ErrAnew
	}
	return nil
}

// rests is what a process is that does not lead.
func (b *Bus) rests() relay.BusRole {
	if b.o.Follow {
		return relay.BusFollows
	}
	return relay.BusStandsBy
}

// say tells the show of this process how the bus is.
func (b *Bus) say(w way, role relay.BusRole, wrong string) {
	now := b.Now()
	w.send(relay.BusState{Bus: relay.Bus{Role: role, Leader: now.Leader, Wrong: wrong, Waiting: now.Kept}})
}

// following is one time of following.
type following struct {
	bus   *Bus
	way   way
	began time.Time // when somebody else was first heard without a silence; wall
	heard time.Time // when the last message came; wall
	told  relay.Bus // that the show was told
	clock clockOf
}

func (b *Bus) newFollowing(w way) *following {
	f := &following{bus: b, way: w, heard: time.Now(), began: time.Now()}
	if b.timed { // until better is known: what is read first may have waited for us
		f.clock, b.timed = clockOf{leader: b.leader, behind: []time.Duration{0}}, false
	}
	b.state.set(func(n *Now) { n.Role = b.rests() })
	if b.told { // who has just come tells nothing before it has caught up
		f.say("")
	}
	return f
}

// listen passes on messages as long as they come.
func (f *following) listen(ctx context.Context) error {
	r, err := f.bus.reader(ctx)
	if err != nil {
		if !pause(ctx, min(f.bus.o.Lease/4, reconnectGap)) {
			return ctx.Err()
		}
		return errSilent
	}
	defer r.close()
	if !f.bus.told && r.caughtUp() {
		f.say("")
	}
	for {
		events, err := r.next(ctx)
		if err != nil {
			return err
		}
		f.heard = time.Now()
		if f.bus.waiting == 0 { // what waited tells nothing of now
			f.clock.follow(&f.bus.o, f.bus.leader, events)
		}
		f.way.send(events...)
		if r.caughtUp() { // until then others may have shown what is newer
			f.say("")
		}
		if err := f.mayStay(); err != nil {
			return err
		}
	}
}

// mayStay reports that another process leads where none was to be.
func (f *following) mayStay() error {
	if !f.bus.o.Follow && !f.bus.o.Pair && time.Since(f.began) > 2*f.bus.o.Lease {
		return ErrLed
	}
	return nil
}

// say tells the show how the bus is, if that is news.
func (f *following) say(wrong string) {
	is := relay.Bus{Role: f.bus.rests(), Leader: f.bus.Now().Leader, Wrong: wrong}
	if is == f.told {
		return
	}
	f.told, f.bus.told = is, true
	f.bus.state.set(func(n *Now) { n.Cut = wrong != "" })
	f.way.send(relay.BusState{Bus: is})
}

// tell tells the show that nobody has been heard for too long.
func (f *following) tell(err error) {
	wrong := "no process leads the show; start one with clocktell serve, or see whether the bus has lost servers, or has no room left"
	if !f.bus.stream.conn.IsConnected() {
		wrong = fmt.Sprintf("the bus at %s does not answer; see whether it runs and can be reached", redacted(f.bus.o.URL))
	} else if !errors.Is(err, errSilent) {
		wrong = fmt.Sprintf("the bus at %s %s", redacted(f.bus.o.URL), whyNot(err, f.bus.answers))
	}
	wrong += "; what is shown is of " + f.bus.latest.Format(time.TimeOnly) + " UTC"
	if time.Since(f.heard) < cutAfter*f.bus.o.Lease || wrong == f.told.Wrong {
		return
	}
	f.bus.o.Log.Error("the show stands still", "why", wrong, "err", err)
	f.say(wrong)
}

// cutAfter is after how many leases without a message a process says that it is cut off. Until
// then another one is about to lead.
const cutAfter = 2
