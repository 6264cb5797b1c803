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
	"clocktell/relay/journal"
	"clocktell/relay/metrics"
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
	sources *sourceSet
	sharing *sharing // nil: nobody else has the show
	push    map[string]http.Handler
	intakes intakes
	way     entrance
	heard   chan relay.Event // from sources and the producer, on its way to the loop
	looker  *looker          // nil: the journal or the bus remembers the show
	recaps  recaps
	time    relay.Timebase
	log     *slog.Logger
}

// newStation wires a show from a configuration, and restores it from its journal if it
// has one, or from the bus. Nothing runs yet; run or close ends it.
func newStation(ctx context.Context, c config.Config, tb relay.Timebase, log *slog.Logger) (*station, error) {
	way, err := openEntrance(c)
	if err != nil {
		return nil, err
	}
	return newStationWith(ctx, c, tb, log, way)
}

// newStationWith is newStation for an entrance that is there already.
func newStationWith(ctx context.Context, c config.Config, tb relay.Timebase, log *slog.Logger, way entrance) (*station, error) {
	figures := newFigures()
	k, err := openShow(ctx, c, tb, log, figures)
	if err != nil {
		return nil, err
	}
	st := newStage(relay.NewAfter(k.past, k.show, tb), tb, log, figures)
	st.journal, st.intakes = k.journal, k.intakes
	st.share(k.sharing)
	st.library = openLibrary(c.Reference, tb.Now, log)
	st.engines = newSeconders(c, tb, st.heard, log)
	for _, f := range c.Feeds {
		if err := st.addSource(f, os.Stdin); err != nil {
			return nil, errors.Join(fmt.Errorf("feed %s: %w", f.Name, err), st.close())
		}
	}
	st.serve(c, way)
	return st, nil
}

// share lets other processes have the show.
func (st *station) share(s *sharing) {
	if s != nil {
		st.sharing = s
		s.station.Store(st)
		st.relay.Share()
	}
}

// newStage returns a station without sources and pages: whatever is sent to heard is
// the show.
func newStage(r *relay.Relay, tb relay.Timebase, log *slog.Logger, figures *metrics.Metrics) *station {
	figures.Relay = r
	return &station{
		relay: r, sources: newSourceSet(), push: make(map[string]http.Handler), intakes: make(intakes),
		heard: make(chan relay.Event, eventsWaiting), time: tb, log: log, figures: figures,
	}
}

// serve gives the station its pages.
func (st *station) serve(c config.Config, way entrance) {
	st.way = way
	st.figures.Pages = func() metrics.Pages { return metrics.Pages(st.server.Pages()) }
	st.figures.Conns = func() metrics.Conns { return metrics.Conns(st.server.Conns()) }
	if st.journal != nil {
		st.figures.Journal = func() metrics.Journal { return journalFigures(st.journal, c.Journal) }
	}
	if len(st.engines) > 0 {
		st.figures.Engine = st.engines[0].figures
	}
	if st.sharing != nil {
		st.figures.Bus = st.sharing.figures
	}
	if st.library != nil {
		st.library.took = st.figures.Lookup
	}
	st.remember()
	st.server = overlay.New(overlay.Options{
		Relay: st.relay, Time: st.time, Static: static.FS, Metrics: st.figures.Handler(), Log: st.log,
		MaxPages: c.Server.MaxPages, Late: st.figures.PacketToPage, Journal: c.Journal.Dir, Run: st.epoch(),
		Note: st.note, Enter: st.enter, Push: st.push, Recap: st.recaps.zip,
		Keys: st.way.keys, TLS: st.way.tls, MaxConns: c.Server.MaxConns, MaxConnsEach: c.Server.MaxConnsOne,
	})
}

// remember makes recaps of what remembers the show best.
func (st *station) remember() {
	switch {
	case st.journal != nil:
		st.recaps.recall = recallJournal(st.journal, st.time.Now, st.log)
	case st.sharing != nil:
		st.recaps.recall = recallBus(st.sharing, st.time.Now)
	default:
		st.looker = newLooker(st.relay)
		st.recaps.recall = st.looker.recall
	}
}

// run lets the show go on until ctx ends, and closes the station.
func (st *station) run(ctx context.Context, l net.Listener) error {
	group, ctx := errgroup.WithContext(ctx)
	taking, taken := context.WithCancel(context.WithoutCancel(ctx)) // of journal and loop
	defer taken()
	events := st.heard
	if st.sharing != nil {
		shared := make(chan relay.Event)
		group.Go(func() error {
			defer taken() // what is on the bus is in the journal first
			return st.sharing.run(ctx, st, shared)
		})
		group.Go(func() error { return st.sharing.bus.People(ctx, st.server.People, st.server.PeopleElsewhere) })
		events = shared
	} else {
		group.Go(func() error {
			err := st.lead(ctx)
			if err == nil {
				<-ctx.Done() // a recording has no feeds
			}
			taken()
			return err
		})
	}
	if st.journal != nil {
		kept, in := make(chan relay.Event), events
		group.Go(func() error { return st.journal.Run(taking, in, kept) })
		group.Go(func() error { return st.keepLog(ctx) })
		events = kept
	}
	group.Go(func() error { return st.relay.Run(taking, events) })
	if st.looker != nil {
		group.Go(func() error { return st.looker.run(ctx) })
	}
	group.Go(func() error {
		st.catchUp(ctx)
		return st.server.Serve(ctx, l)
	})
	return errors.Join(group.Wait(), st.close())
}

// close gives up the journal, the reference and the bus.
func (st *station) close() error {
	err := errors.Join(st.library.close(), st.sharing.close())
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
