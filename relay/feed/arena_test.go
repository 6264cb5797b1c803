package feed

import (
	"context"
	"errors"
	"io"
	"log"
	"net"
	"net/http"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"testing/synctest"
	"time"
)

// address is what the tests poll; its query must not appear in any error.
const (
	address    = "http://arena.example/games.pgn?key=hidden-query"
	shownStart = "GET http://arena.example/games.pgn?…: "
	bearer     = "hidden-bearer"
	pgn        = "[White \"A\"]\n\n1. e4 *\n"
)

// arena is an HTTP server on a network in memory. Every host name leads to it.
type arena struct {
	handler http.HandlerFunc
	conns   chan net.Conn
	closed  chan struct{}
	refuse  atomic.Int32 // so many dials more are refused
	stall   atomic.Bool  // the next dial gets no answer
	busy    sync.WaitGroup

	mu      sync.Mutex
	asked   []time.Time      // when the configured address was asked, by the client's side
	headers []http.Header    // of each request that reached the server
	hosts   []string         // likewise
	open    map[net.Conn]any // the server's ends
}

// Accept, Close and Addr make arena a net.Listener.
func (a *arena) Accept() (net.Conn, error) {
	select {
	case c := <-a.conns:
		return c, nil
	case <-a.closed:
		return nil, net.ErrClosed
	}
}

func (a *arena) Close() error {
	close(a.closed)
	return nil
}

func (a *arena) Addr() net.Addr { return &net.TCPAddr{IP: net.IPv4(192, 0, 2, 1), Port: 80} }

func (a *arena) dial(ctx context.Context, network, _ string) (net.Conn, error) {
	if a.refuse.Load() > 0 {
		a.refuse.Add(-1)
		return nil, &net.OpError{Op: "dial", Net: network, Addr: a.Addr(), Err: syscall.ECONNREFUSED}
	}
	if a.stall.Swap(false) {
		<-ctx.Done()
		return nil, ctx.Err()
	}
	near, far := net.Pipe()
	reset := &atomic.Bool{}
	select {
	case a.conns <- &farEnd{far, reset}:
		return &nearEnd{near, reset}, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// farEnd is the server's end; reset closes it as a crashed machine would.
type farEnd struct {
	net.Conn
	wasReset *atomic.Bool
}

func (f *farEnd) reset() {
	f.wasReset.Store(true)
	f.Close()
}

// nearEnd is the client's end.
type nearEnd struct {
	net.Conn
	wasReset *atomic.Bool
}

func (n *nearEnd) Read(b []byte) (int, error) {
	got, err := n.Conn.Read(b)
	if err == io.EOF && n.wasReset.Load() {
		err = &net.OpError{Op: "read", Net: "tcp", Err: syscall.ECONNRESET}
	}
	return got, err
}

func (a *arena) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	a.mu.Lock()
	a.headers = append(a.headers, r.Header.Clone())
	a.hosts = append(a.hosts, r.Host)
	a.mu.Unlock()
	a.busy.Add(1)
	defer a.busy.Done()
	a.handler(w, r)
}

// watchedTrips notes when the configured address is asked.
type watchedTrips struct {
	*http.Transport
	a *arena
}

func (w watchedTrips) RoundTrip(r *http.Request) (*http.Response, error) {
	if r.URL.String() == address {
		w.a.mu.Lock()
		w.a.asked = append(w.a.asked, time.Now())
		w.a.mu.Unlock()
	}
	return w.Transport.RoundTrip(r)
}

func (a *arena) track(c net.Conn, s http.ConnState) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.open == nil {
		a.open = map[net.Conn]any{}
	}
	if a.open[c] = nil; s == http.StateClosed || s == http.StateHijacked {
		delete(a.open, c)
	}
}

// goAway ends every connection and refuses the next n.
func (a *arena) goAway(n int32) {
	a.refuse.Store(n)
	a.mu.Lock()
	defer a.mu.Unlock()
	for c := range a.open {
		c.Close()
	}
}

// listen polls the arena, inside a bubble, until the recorder has its events.
func (a *arena) listen(t *testing.T, o HTTPOptions, to *recorder) {
	t.Helper()
	a.serve(t, func(transport http.RoundTripper) {
		h, err := NewHTTP(o.forTest(transport))
		runInside(t, h, err, to)
	})
}

// follow is listen for a growing response.
func (a *arena) follow(t *testing.T, o GrowingOptions, to *recorder) {
	t.Helper()
	a.serve(t, func(transport http.RoundTripper) {
		o.HTTPOptions = o.forTest(transport)
		g, err := NewGrowing(o)
		runInside(t, g, err, to)
	})
}

// forTest fills in what the tests agree on.
func (o HTTPOptions) forTest(transport http.RoundTripper) HTTPOptions {
	o.Transport = transport
	if o.URL == "" {
		o.URL = address
	}
	if o.Rand == nil {
		o.Rand = func() float64 { return 0.5 } // the middle: no jitter
	}
	return o
}

func runInside(t *testing.T, s Source, err error, to *recorder) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := to.context(t.Context())
	defer cancel()
	if err := s.Run(ctx, to); err != nil {
		t.Errorf("Run returned %v, want nil", err)
	}
	to.ended = time.Now()
}

// serve serves, inside a bubble, while during uses a transport that leads here.
func (a *arena) serve(t *testing.T, during func(http.RoundTripper)) {
	t.Helper()
	a.conns, a.closed = make(chan net.Conn), make(chan struct{})
	server := &http.Server{Handler: a, ConnState: a.track, ErrorLog: log.New(io.Discard, "", 0)}
	served := make(chan error)
	go func() { served <- server.Serve(a) }()

	transport := limitedTransport(DefaultTimeout)
	transport.DialContext, transport.Proxy = a.dial, nil
	during(watchedTrips{transport, a})
	transport.CloseIdleConnections()
	server.Close()
	if err := <-served; !errors.Is(err, http.ErrServerClosed) {
		t.Error(err)
	}
	synctest.Wait() // no handler begins any more
	a.busy.Wait()
	synctest.Wait()
}

// inTurn answers the n-th request with the n-th handler, and the last one ever after.
func inTurn(hs ...http.HandlerFunc) http.HandlerFunc {
	var n atomic.Int32
	return func(w http.ResponseWriter, r *http.Request) {
		i := min(int(n.Add(1)), len(hs))
		hs[i-1](w, r)
	}
}

func text(body string) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, body) }
}
