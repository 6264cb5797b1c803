package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"sync/atomic"
	"time"

	"clocktell/relay"
	"clocktell/relay/bus"
	"clocktell/relay/config"
)

// sharing is the part of this process in a show that several share.
type sharing struct {
	bus      *bus.Bus
	server   *bus.Server // in this process; nil: it is another one
	options  bus.Options
	station  atomic.Pointer[station]
	epoch    string
	intakes  intakes
	contents map[string]*relay.Contents // of every feed, as far as the show has it
}

// newSharing connects to the bus that a configuration names, or serves it.
func newSharing(c config.Bus, tb *relay.Timebase, log *slog.Logger) (*sharing, error) {
	s := &sharing{intakes: make(intakes), contents: make(map[string]*relay.Contents)}
	address := c.URL
	if c.Listen != "" {
		var err error
		if s.server, err = bus.Serve(bus.ServerOptions{Listen: c.Listen, Dir: c.Dir, Token: c.Token}); err != nil {
			return nil, err
		}
		address = s.server.URL()
	}
	s.options = bus.Options{
		URL: address, Token: c.Token, Show: c.Show, ID: processID(), Pair: c.Pair, Replicas: c.Replicas, MaxBytes: c.MaxBytes,
		Now: func() time.Time { return tb.Now() }, Set: func(show time.Time) { tb.Set(show) }, Book: func() relay.OpeningBook { return theBook() }, Take: s.take, Deposed: s.deposed, Log: log,
	}
	return s, nil
}

// open connects to the bus.
func (s *sharing) open(ctx context.Context) (err error) {
	s.options.Lead = func(ctx context.Context) error { return s.station.Load().lead(ctx) }
	s.options.Enter = func(ctx context.Context, id string, e relay.Event) (relay.Entered, error) {
		st := s.station.Load()
		return st.entered(ctx, id, stamped(e, st.time.Now())) // the clock of the leader counts
	}
	s.options.Due = func() time.Duration { return s.station.Load().due() }
	s.bus, err = bus.Open(ctx, s.options)
	return err
}

// run shares the show of a station until ctx ends.
func (s *sharing) run(ctx context.Context, st *station, out chan<- relay.Event) error {
	changes := st.relay.Subscribe()
	defer changes.Close()
	return s.bus.Run(ctx, st.heard, out, changes.C)
}

// catchUp waits until the show is at least what the bus held when this process began to follow it,
// or it is told that it cannot be: pages that come from another process have seen that already.
func (st *station) catchUp(ctx context.Context) {
	changes := st.relay.Subscribe()
	defer changes.Close()
	for st.sharing != nil && st.relay.Show().Bus.Role == relay.BusNone {
		select {
		case <-changes.C:
		case <-ctx.Done():
			return
		}
	}
}

// processID names this process to people.
func processID() string {
	host, err := os.Hostname()
	if err != nil {
		host = "here"
	}
	return fmt.Sprintf("%s, process %d", host, os.Getpid())
}

// take follows what the show has. Of a packet that was read from the bus it makes a whole one.
func (s *sharing) take(e relay.Event, own bool) (relay.Event, error) {
	packet, ok := e.(relay.PacketRead)
	if !ok {
		return e, nil
	}
	if s.contents[packet.Feed] == nil {
		s.contents[packet.Feed] = &relay.Contents{}
	}
	if err := s.contents[packet.Feed].Take(packet.Parts); err != nil || own {
		return e, err
	}
	return s.intakes.again(packet)
}

// deposed makes the intakes what the show has: they may have read more, that never got there.
func (s *sharing) deposed() {
	clear(s.intakes)
	for feed, contents := range s.contents {
		whole := relay.PacketRead{Feed: feed, Parts: contents.Parts()}
		if _, err := s.intakes.of(feed).Again(whole); err != nil {
			panic(err) // texts alone always fit
		}
	}
}

// close leaves the bus.
func (s *sharing) close() error {
	if s == nil {
		return nil
	}
	if s.bus != nil {
		s.bus.Close()
	}
	if s.server != nil {
		s.server.Close()
	}
	return nil
}

// enter brings what a person entered here into the show, wherever it is led.
func (st *station) enter(ctx context.Context, id string, e relay.Event) (relay.Entered, error) {
	if st.sharing == nil || st.sharing.bus.Now().Role == relay.BusLeads {
		return st.entered(ctx, id, e)
	}
	return st.sharing.bus.Ask(ctx, id, e)
}

// epoch names the show that is shared, so that pages know it again at another process; ""
// it is not.
func (st *station) epoch() string {
	if st.sharing == nil {
		return ""
	}
	return st.sharing.epoch
}

// due returns in how much wall time time alone changes the show; less than 0: never.
func (st *station) due() time.Duration {
	due := st.relay.Show().Due()
	if due.IsZero() {
		return -1
	}
	return max(0, st.time.Wall(due.Sub(st.time.Now()))+relay.Lag)
}

// errOtherPlan is for a process whose configuration is not that of the show.
var errOtherPlan = errors.New("the configuration, or what this version makes of it, differs from that of the show on the bus, which another process leads: make both the same, or stop that one first")
