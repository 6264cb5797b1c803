package main

import (
	"context"
	"log/slog"
	"sync"
	"time"

	"clocktell/relay"
	"clocktell/relay/bus"
	"clocktell/relay/journal"
	"clocktell/relay/recap"
)

// recall lets the show so far go by once more before a watch. Where a journal or a bus keeps
// the show a process keeps nothing of games that are over: an evening has thousands.
type recall func(ctx context.Context) (*recap.Watch, error)

// recallJournal recalls what a journal has of the show, up to now.
func recallJournal(kept *journal.Journal, now func() time.Time, log *slog.Logger) recall {
	return func(ctx context.Context) (*recap.Watch, error) {
		recording, err := journal.Read(ctx, kept.Path())
		if err != nil {
			return nil, err
		}
		defer recording.Close()
		watch, _, errs, err := recalled(ctx, recording)
		for _, err := range errs {
			log.Warn("left out of the recap", "err", err)
		}
		if err != nil {
			return nil, err
		}
		pass(watch, now())
		return watch, nil
	}
}

// pass lets time alone change the show that a watch has seen.
func pass(watch *recap.Watch, now time.Time) {
	watch.See(watch.Show().Through(relay.TimePassed{At: now}, watch.See))
}

// recallBus recalls what the bus has of the show, up to now, over a connection of its own.
func recallBus(s *sharing, now func() time.Time) recall {
	return func(ctx context.Context) (*recap.Watch, error) {
		again := sharing{intakes: make(intakes), contents: make(map[string]*relay.Contents)}
		defer again.close()
		o := s.options
		var err error
		again.bus, err = bus.Open(ctx, bus.Options{
			URL: o.URL, Token: o.Token, Show: o.Show, ID: o.ID, Follow: true, Now: now, Book: o.Book, Take: again.take, Log: o.Log,
		})
		if err != nil {
			return nil, err
		}
		begin, found := again.bus.Beginning()
		if !found {
			return nil, recap.ErrNoGames
		}
		plan, err := sharedPlan(begin)
		if err != nil {
			return nil, err
		}
		watch, show := recap.NewWatch(), relay.NewShow(plan, begin.Began)
		if err := again.bus.Past(ctx, func(e relay.Event) { show = show.Through(e, watch.See) }); err != nil {
			return nil, err
		}
		watch.See(show)
		pass(watch, now())
		return watch, nil
	}
}

// looker sees the show of a process go by that has no other memory of it. Of states that came
// within the same moment it may miss all but the last; a recap from the journal misses none.
type looker struct {
	relay *relay.Relay

	mu    sync.Mutex // protects following
	watch *recap.Watch
}

func newLooker(r *relay.Relay) *looker { return &looker{relay: r, watch: recap.NewWatch()} }

// recall returns what was seen so far, so that the show is seen on while that is written.
func (l *looker) recall(context.Context) (*recap.Watch, error) {
	l.see()
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.watch.Clone(), nil
}

// see takes the show as it is now. It is looked at under the lock, so that no older one comes
// behind a newer one.
func (l *looker) see() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.watch.See(l.relay.Show())
}

// run sees the show go by until ctx ends.
func (l *looker) run(ctx context.Context) error {
	changes := l.relay.Subscribe()
	defer changes.Close()
	for {
		select {
		case <-changes.C:
			l.see()
		case <-ctx.Done():
			return nil
		}
	}
}
