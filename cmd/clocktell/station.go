package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"syscall"

	"golang.org/x/sync/errgroup"

	"clocktell/overlay"
	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/feed"
	"clocktell/relay/journal"
	"clocktell/relay/metrics"
	"clocktell/relay/recap"
	"clocktell/static"
)

// eventsWaiting is how many events may wait for the loop; feeds block beyond.
const eventsWaiting = 64

// station is a whole show: sources, journal, relay and server, wired.
type station struct {
	relay   *relay.Relay
	server  *overlay.Server
	journal *journal.Journal // nil: nothing is kept
	library *library
	engines []*seconder
	figures *metrics.Metrics
	sources map[string]feed.Source
	push    map[string]http.Handler
	intakes intakes
	way     entrance
	heard   chan relay.Event // from sources and the producer, on its way to the loop
	recaps  recaps
	time    relay.Timebase
	log     *slog.Logger
}

// newStation wires a show from a configuration, and restores it from its journal if it
// has one. Nothing runs yet; run or close ends it.
func newStation(ctx context.Context, c config.Config, tb relay.Timebase, log *slog.Logger) (*station, error) {
	plan := planOf(c, tb)
	var kept *journal.Journal
	figures := newFigures()
	r := restored{show: relay.NewShow(plan, tb.Now()), past: relay.NewHistory(), watch: recap.NewWatch(), intakes: make(intakes)}
	if c.Journal.Dir != "" {
		var err error
		if kept, r, err = openJournal(ctx, c, plan, tb, log, figures.Commit); err != nil {
			return nil, err
		}
	}
	st := newStage(relay.NewAfter(r.past, r.show, tb), tb, log, figures)
	st.journal, st.intakes, st.recaps.watch = kept, r.intakes, r.watch
	st.library = openLibrary(c.Reference, tb.Now, log)
	st.engines = newSeconders(c, tb, st.heard, log)
	for _, f := range c.Feeds {
		if err := st.addSource(f, os.Stdin); err != nil {
			return nil, errors.Join(fmt.Errorf("feed %s: %w", f.Name, err), st.close())
		}
	}
	if err := st.serve(c); err != nil {
		return nil, errors.Join(err, st.close())
	}
	return st, nil
}

// newStage returns a station without sources and pages: whatever is sent to heard is
// the show.
func newStage(r *relay.Relay, tb relay.Timebase, log *slog.Logger, figures *metrics.Metrics) *station {
	figures.Relay = r
	return &station{
		relay: r, sources: make(map[string]feed.Source), push: make(map[string]http.Handler), intakes: make(intakes),
		heard: make(chan relay.Event, eventsWaiting), time: tb, log: log, figures: figures, recaps: recaps{watch: recap.NewWatch()},
	}
}

// serve gives the station its pages.
func (st *station) serve(c config.Config) (err error) {
	if st.way, err = openEntrance(c); err != nil {
		return err
	}
	st.figures.Pages = func() metrics.Pages { return metrics.Pages(st.server.Pages()) }
	st.figures.Conns = func() metrics.Conns { return metrics.Conns(st.server.Conns()) }
	if st.journal != nil {
		st.figures.Journal = func() metrics.Journal { return journalFigures(st.journal, c.Journal) }
	}
	if len(st.engines) > 0 {
		st.figures.Engine = st.engines[0].figures
	}
	if st.library != nil {
		st.library.took = st.figures.Lookup
	}
	st.server = overlay.New(overlay.Options{
		Relay: st.relay, Time: st.time, Static: static.FS, Metrics: st.figures.Handler(), Log: st.log,
		MaxPages: c.Server.MaxPages, Late: st.figures.PacketToPage, Journal: c.Journal.Dir,
		Note: st.note, Enter: st.entered, Push: st.push, Recap: st.recap,
		Keys: st.way.keys, TLS: st.way.tls, MaxConns: c.Server.MaxConns, MaxConnsEach: c.Server.MaxConnsOne,
	})
	return nil
}

// run lets the show go on until ctx ends, and closes the station.
func (st *station) run(ctx context.Context, l net.Listener) error {
	group, ctx := errgroup.WithContext(ctx)
	kept := st.heard
	if st.journal != nil {
		kept = make(chan relay.Event)
		group.Go(func() error { return st.journal.Run(ctx, st.heard, kept) })
		group.Go(func() error { return st.keepLog(ctx) })
	}
	group.Go(func() error { return st.relay.Run(ctx, kept) })
	group.Go(func() error { return st.watchShow(ctx) })
	group.Go(func() error { return st.server.Serve(ctx, l) })
	group.Go(func() error { return loadOpenings(ctx, st.time.Now, st.heard) })
	group.Go(func() error { return st.library.run(ctx, st.relay, st.heard) })
	for _, e := range st.engines {
		group.Go(func() error { return e.Run(ctx) })
		group.Go(func() error { return e.run(ctx, st.relay) })
	}
	for name, source := range st.sources {
		sink := &sink{ctx: ctx, feed: name, intake: st.intakes.of(name), events: st.heard, polled: st.figures.Poll, log: st.log.With("feed", name)}
		group.Go(func() error {
			if err := source.Run(ctx, sink); err != nil {
				return fmt.Errorf("feed %s: %w", name, err)
			}
			return nil
		})
	}
	return errors.Join(group.Wait(), st.close())
}

// close gives up the journal and the reference.
func (st *station) close() error {
	err := st.library.close()
	if st.journal != nil {
		err = errors.Join(st.journal.Close(), err)
	}
	return err
}

// listen opens the address where pages are served.
func listen(ctx context.Context, address string) (net.Listener, error) {
	var l net.Listener
	err := whenFree(ctx, syscall.EADDRINUSE, func() (err error) {
		l, err = net.Listen("tcp", address)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("serve pages at %s: %w; choose another address with --listen, such as 127.0.0.1:0 for any free port", address, err)
	}
	return l, nil
}
