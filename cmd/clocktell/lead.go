package main

import (
	"context"
	"fmt"

	"golang.org/x/sync/errgroup"
)

// lead does what is done by one process of a show alone, until ctx ends: it hears the feeds,
// looks up what the reference knows, and asks the engines.
func (st *station) lead(ctx context.Context) error {
	sources, err := st.sources.fresh()
	if err != nil {
		return err
	}
	group, ctx := errgroup.WithContext(ctx)
	group.Go(func() error { return loadOpenings(ctx, st.time.Now, st.heard) })
	group.Go(func() error { return st.library.run(ctx, st.relay, st.heard) })
	for _, e := range st.engines {
		group.Go(func() error { return e.Run(ctx) })
		group.Go(func() error { return e.run(ctx, st.relay) })
	}
	for name, source := range sources {
		sink := &sink{ctx: ctx, feed: name, intake: st.intakes.of(name), events: st.heard, polled: st.figures.Poll, log: st.log.With("feed", name)}
		group.Go(func() error {
			if err := source.Run(ctx, sink); err != nil {
				return fmt.Errorf("feed %s: %w", name, err)
			}
			return nil
		})
	}
	return group.Wait()
}
