package bus

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// server starts a bus.
func serve(t *testing.T, listen, dir string) *Server {
	t.Helper()
	s, err := Serve(ServerOptions{Listen: listen, Dir: dir})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s
}

// address is where a server listens, HOST:PORT.
func (s *Server) address() string { return s.server.Addr().String() }

// node is one process with its fold of the show.
type node struct {
	t     *testing.T
	o     Options
	ahead atomic.Int64 // of its clock, ns
	show  atomic.Pointer[relay.Show]
	bus   *Bus
	in    chan relay.Event
	told  *relay.Intake // as far as Take was told
	lead  func(ctx context.Context, n *node) error
	leads atomic.Bool   // Lead runs
	began chan struct{} // a signal that Options.Due may have changed

	mu     sync.Mutex // protects what follows
	taken  []string   // IDs, in order
	own    []string   // of those, what this process appended
	back   string     // what went back
	stop   func() error
	endedC chan struct{} // Run has returned
}

// newNode returns a process whose line to the bus is at url.
func newNode(t *testing.T, url, id string) *node {
	n := &node{t: t, in: make(chan relay.Event, 100), began: make(chan struct{}, 1), told: relay.NewIntake(relaytest.FeedName)}
	n.lead = func(ctx context.Context, n *node) error { <-ctx.Done(); return nil }
	n.o = Options{
		URL: url, Show: "test", ID: id, Pair: true,
		BeatEvery: 60 * time.Millisecond, Lease: 600 * time.Millisecond, AckWait: 500 * time.Millisecond,
		Now: n.now, Set: n.set, Book: book, Due: n.due, Take: n.take, Lead: n.runLead, Deposed: func() {}, Enter: n.enter,
		Log: slog.New(slog.DiscardHandler),
	}
	return n
}

func (n *node) now() time.Time { return time.Now().Add(time.Duration(n.ahead.Load())).UTC() }

func (n *node) set(to time.Time) { n.ahead.Add(int64(to.Sub(n.now()))) }

func (n *node) due() time.Duration {
	due := n.show.Load().Due()
	if due.IsZero() {
		return -1
	}
	return max(0, due.Sub(n.now())+relay.Lag)
}

func (n *node) take(e relay.Event, own bool) (relay.Event, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if id := idOf(e); id != "" {
		n.taken = append(n.taken, id)
		if own {
			n.own = append(n.own, id)
		}
	}
	if p, ok := e.(relay.PacketRead); ok {
		p.Keys, p.Games = nil, nil
		return n.told.Again(p)
	}
	return e, nil
}

// idOf is what tells an entry from others.
func idOf(e relay.Event) string {
	switch e := e.(type) {
	case relay.AtPanel:
		return e.ID
	case relay.ByHand:
		return e.ID
	}
	return ""
}

func (n *node) runLead(ctx context.Context) error {
	n.leads.Store(true)
	defer n.leads.Store(false)
	return n.lead(ctx, n)
}

// enter puts an entry into the show, as the leader does with what is asked of it.
func (n *node) enter(ctx context.Context, id string, e relay.Event) (relay.Entered, error) {
	select {
	case n.in <- e:
	case <-ctx.Done():
		return relay.Entered{}, ctx.Err()
	}
	look := time.NewTicker(time.Millisecond)
	defer look.Stop()
	for {
		if entered, known := n.show.Load().Entry(id); known {
			return entered, nil
		}
		select {
		case <-look.C:
		case <-ctx.Done():
			return relay.Entered{}, ctx.Err()
		}
	}
}

// apply is the loop of the show.
func (n *node) apply(e relay.Event) {
	was := n.show.Load()
	is := was.After(e)
	n.show.Store(is)
	if is.At.Before(was.At) {
		n.mu.Lock()
		n.back = fmt.Sprintf("%T: show time goes back from %v to %v", e, was.At, is.At)
		n.mu.Unlock()
	}
	select {
	case n.began <- struct{}{}:
	default:
	}
}

// open finds the show on the bus, or begins it.
func (n *node) open(ctx context.Context) error {
	var err error
	if n.bus, err = Open(ctx, n.o); err != nil {
		return err
	}
	begin, found := n.bus.Beginning()
	if !found {
		begin = Beginning{Epoch: fmt.Sprint(n.o.ID, time.Now().UnixNano()), Title: "Test", Rate: 1, Began: n.o.Now(), By: n.o.ID}
		if err := n.bus.Begin(ctx, begin, nil); err != nil {
			return err
		}
	}
	n.told = relay.NewIntake(relaytest.FeedName)
	n.show.Store(relay.NewShow(relaytest.Plan(), begin.Began))
	if found {
		return n.bus.Past(ctx, n.apply)
	}
	return nil
}

// start opens and runs the process.
func (n *node) start() *node {
	n.t.Helper()
	if err := n.open(n.t.Context()); err != nil {
		n.t.Fatal(n.o.ID, err)
	}
	return n.run()
}

// run runs a process that is open, until its stop is called.
func (n *node) run() *node {
	ctx, cancel := context.WithCancel(context.Background())
	out := make(chan relay.Event)
	var group sync.WaitGroup
	ended := make(chan struct{})
	var result error
	group.Go(func() {
		defer close(ended)
		result = n.bus.Run(ctx, n.in, out, n.began)
	})
	group.Go(func() {
		for {
			select {
			case e := <-out:
				n.apply(e)
			case <-ended:
				return
			}
		}
	})
	n.stop = sync.OnceValue(func() error {
		cancel()
		group.Wait()
		n.bus.Close()
		return result
	})
	n.t.Cleanup(func() { n.stop() })
	n.endedC = ended
	return n
}

// wantEnd waits until Run returns by itself, and wants that error.
func (n *node) wantEnd(want error) {
	n.t.Helper()
	select {
	case <-n.endedC:
	case <-time.After(soon):
		n.t.Fatalf("%s goes on", n.o.ID)
	}
	if err := n.stop(); !errors.Is(err, want) {
		n.t.Errorf("%s ends with %v, want %v", n.o.ID, err, want)
	}
}

func (n *node) ids() (taken, own []string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	return append([]string(nil), n.taken...), append([]string(nil), n.own...)
}

// count is how many entries Take was told of.
func (n *node) count() int {
	n.mu.Lock()
	defer n.mu.Unlock()
	return len(n.taken)
}
