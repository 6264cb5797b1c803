package main

import (
	"context"
	"log/slog"
	"maps"
	"slices"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/bus"
	"clocktell/relay/config"
)

// clockJumpMost is by how much show time may jump on a page when another process leads.
const clockJumpMost = 100 * time.Millisecond

// TestStandbyWithWrongClock lets a standby whose machine is an hour wrong take over. The clock
// of who leads counts: nobody sees that another machine's is another.
func TestStandbyWithWrongClock(t *testing.T) {
	t.Parallel()
	for _, wrong := range []time.Duration{-time.Hour, time.Hour} {
		s := newStep(t)
		right, other := relay.NewTimebase(1), relay.NewTimebaseAt(time.Now().Add(wrong), 1)
		aAt, stopA := s.station(right)
		bAt, stopB := s.station(other)
		a, b := s.watch.open("a", "health", func() string { return aAt }), s.watch.open("b", "health", func() string { return bAt })
		shows := func(p *watched, plies int) {
			t.Helper()
			for end := time.Now().Add(10 * time.Second); ; <-time.After(10 * time.Millisecond) {
				if n, _ := p.plies(0); n >= plies {
					return
				} else if time.Now().After(end) {
					t.Fatalf("%s shows %d plies, not %d", p.name, n, plies)
				}
			}
		}
		shows(a, 6)
		shows(b, 6)
		stopA()
		shows(b, s.feed.plies()+6)
		s.watch.check()
		s.compare(wrong, a, b)
		s.watch.close()
		stopB()
	}
}

// TestFollowerIsSetByBeats lets the clock of a follower fall behind while the show changes more
// often than beats come: it is right again with the next one.
func TestFollowerIsSetByBeats(t *testing.T) {
	t.Parallel()
	s := newStep(t)
	right, other := relay.NewTimebase(1), relay.NewTimebase(1)
	_, stopA := s.station(right)
	bAt, stopB := s.station(other)
	b := s.watch.open("b", "health", func() string { return bAt })
	plies := 0
	for began := time.Now(); plies < 6; <-time.After(10 * time.Millisecond) {
		if plies, _ = b.plies(0); time.Since(began) > 10*time.Second {
			t.Fatalf("only %d plies", plies)
		}
	}
	other.Set(right.Now().Add(-time.Minute))
	for began := time.Now(); right.Now().Sub(other.Now()).Abs() > clockJumpMost; <-time.After(10 * time.Millisecond) {
		if time.Since(began) > 3*time.Second {
			t.Fatalf("still behind by %v", right.Now().Sub(other.Now()))
		}
	}
	stopB()
	stopA()
}

// step is a show of two stations in this process.
type step struct {
	t      *testing.T
	feed   *parade
	server *bus.Server
	watch  *watch
}

func newStep(t *testing.T) *step {
	s := &step{t: t, feed: newParade(t), watch: newWatch(t)}
	s.watch.pingEvery = 50 * time.Millisecond
	var err error
	if s.server, err = bus.Serve(bus.ServerOptions{Listen: "127.0.0.1:0", Dir: t.TempDir()}); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.server.Close)
	return s
}

// station runs a station of a pair until stop is called.
func (s *step) station(tb relay.Timebase) (address string, stop func()) {
	c := config.Default()
	c.Server.Listen, c.Bus.URL, c.Bus.Pair = freeAddress(s.t), s.server.URL(), true
	c.Feeds = []config.Feed{config.DefaultFeed()}
	c.Feeds[0].Name, c.Feeds[0].URL = "arena", s.feed.url
	c.Feeds[0].Every.Duration, c.Feeds[0].LateAfter.Duration, c.Feeds[0].StaleAfter.Duration = 250*time.Millisecond, time.Hour, 2*time.Hour
	way, err := openEntrance(c)
	if err != nil {
		s.t.Fatal(err)
	}
	l, err := listen(s.t.Context(), c.Server.Listen)
	if err != nil {
		s.t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	st, err := newStationWith(ctx, c, tb, slog.New(slog.DiscardHandler), way)
	if err != nil {
		s.t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- st.run(ctx, l) }()
	return c.Server.Listen, func() {
		s.t.Helper()
		cancel()
		if err := <-ended; err != nil {
			s.t.Error(err)
		}
	}
}

// compare holds show time on both pages against each other, and each against itself.
func (s *step) compare(wrong time.Duration, a, b *watched) {
	s.t.Helper()
	s.watch.mu.Lock()
	defer s.watch.mu.Unlock()
	var most, unsure time.Duration
	first := a.clocks[0]
	for _, p := range []*watched{a, b} {
		if len(p.clocks) < 10 {
			s.t.Errorf("%s: only %d pongs", p.name, len(p.clocks))
		}
		for _, c := range p.clocks {
			jump := (c.now.Sub(first.now) - c.came.Sub(first.came)).Abs()
			if between := max(c.roundTrip, first.roundTrip); jump > clockJumpMost+between {
				s.t.Errorf("wrong by %v: show time at %s is %v beside that of the first page, known to %v", wrong, p.name, jump, between)
			}
			most, unsure = max(most, jump), max(unsure, c.roundTrip)
		}
	}
	lines := s.watch.lines[b.run]
	last := int64(0)
	for _, seq := range slices.Sorted(maps.Keys(lines)) {
		if lines[seq].At < last {
			s.t.Errorf("line %d of the show log goes back by %d ms", seq, last-lines[seq].At)
		}
		last = lines[seq].At
	}
	s.t.Logf("standby wrong by %v: show time on %d pongs within %v (ways there and back up to %v), %d lines of the log in order", wrong, len(a.clocks)+len(b.clocks), most, unsure, len(lines))
}
