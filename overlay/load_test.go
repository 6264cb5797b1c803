package overlay

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/coder/websocket"

	"clocktell/overlay/access"
)

// How much is laid on the server while its people's pages are timed.
const (
	idleSockets  = 1000 // that say and take nothing
	idlePerHost  = 100  // from each address; the limit is DefaultMaxConnsEach
	attackersAt  = 4
	hostileEvery = 4 * time.Millisecond // each of them
	visitsTimed  = 500
)

// loadOf returns how many sockets and visits there are. With the race detector, which .ci/run
// has where CLOCKTELL_TESTS=relay, times mean nothing, and a tenth finds the same races.
func loadOf() (sockets, visits int) {
	if os.Getenv("CLOCKTELL_TESTS") == "relay" {
		return idleSockets / 10, visitsTimed / 10
	}
	return idleSockets, visitsTimed
}

// TestLegitimateUnderLoad prints how long people wait for the panel and its first board
// on a quiet server, and on the same one while it holds a thousand idle sockets and is sent
// a thousand hostile requests a second from elsewhere. Nothing is asserted of time; the goal is a
// ratio of no more than 2. Linux takes all of 127.0.0.0/8 for loopback (RFC 1122, 3.2.1.3).
func TestLegitimateUnderLoad(t *testing.T) {
	sockets, visits := loadOf()
	var tokens []access.Token
	h, address := startOnLoopback(t, withFreshKeys(t, &tokens), func(_ *hall, o *Options) { o.MaxPages = 1500 })
	h.play("e4 e5")
	timeVisits(t, address, tokens[1].Text, visits) // what is made once is made
	quiet := timeVisits(t, address, tokens[1].Text, visits)
	for n := range sockets {
		conn, _, err := websocket.Dial(t.Context(), "ws://"+address+"/live?page=scene/board&token="+tokens[0].Text,
			&websocket.DialOptions{HTTPClient: clientFrom(net.IPv4(127, 0, 1, byte(1+n/idlePerHost)))})
		if err != nil {
			t.Fatalf("idle socket %d: %v", n, err)
		}
		defer conn.CloseNow()
		if _, _, err := conn.Read(t.Context()); err != nil { // its welcome: the server has it
			t.Fatalf("idle socket %d: %v", n, err)
		}
	}
	if open := h.server.Pages().Connected["scene/board"]; open != sockets {
		t.Errorf("%d idle sockets are open, want %d", open, sockets)
	}
	ctx, stop := context.WithCancel(t.Context())
	var attackers sync.WaitGroup
	var hostileRequests atomic.Int64
	for n := range attackersAt {
		attackers.Go(func() { hostileRequests.Add(int64(bombard(ctx, address, net.IPv4(127, 0, 2, byte(1+n))))) })
	}
	h.play("e4 e5 Nf3") // goes to all of them
	loaded := timeVisits(t, address, tokens[1].Text, visits)
	stop()
	attackers.Wait()
	for i, what := range []string{"page", "socket and first board"} {
		was, is := quiet[i], loaded[i]
		t.Logf("%s: median %v quiet, %v under load (x %.2f); 95 of 100 within %v and %v (x %.2f)", what,
			at(was, 50), at(is, 50), ratio(at(is, 50), at(was, 50)), at(was, 95), at(is, 95), ratio(at(is, 95), at(was, 95)))
	}
	t.Logf("under load: %d idle sockets, %d hostile requests", h.server.Pages().Connected["scene/board"], hostileRequests.Load())
	if hostileRequests.Load() == 0 {
		t.Error("no hostile request was made")
	}
}

// startOnLoopback serves a hall at a real address until the test ends.
func startOnLoopback(t *testing.T, changes ...func(*hall, *Options)) (*hall, string) {
	t.Helper()
	h := newHall(t, 0, changes...)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error)
	real := New(h.server.Options)
	h.stop() // the one on pipes; the relay goes with it
	h.server = real
	relayDone := make(chan error)
	go func() { relayDone <- real.Relay.Run(ctx, h.events) }()
	go func() { done <- real.Serve(ctx, l) }()
	t.Cleanup(func() {
		cancel()
		for _, c := range []chan error{done, relayDone} {
			if err := <-c; err != nil {
				t.Error(err)
			}
		}
	})
	return h, l.Addr().String()
}

// clientFrom is a client at an address of its own.
func clientFrom(ip net.IP) *http.Client {
	dialer := &net.Dialer{LocalAddr: &net.TCPAddr{IP: ip}}
	return &http.Client{Transport: &http.Transport{DialContext: dialer.DialContext, DisableKeepAlives: true}}
}

// timeVisits opens the panel again and again: how long its document took, and then its
// socket up to the first board, sorted.
func timeVisits(t *testing.T, address, token string, visits int) [2][]time.Duration {
	t.Helper()
	var took [2][]time.Duration
	client := clientFrom(net.IPv4(127, 0, 0, 1))
	_, port, _ := net.SplitHostPort(address)
	head := header("Cookie", "clocktell-"+port+"="+token)
	for range visits {
		request, _ := http.NewRequestWithContext(t.Context(), "GET", "http://"+address+"/panel", nil)
		request.Header = head
		start := time.Now()
		response, err := client.Do(request)
		if err != nil {
			t.Fatal(err)
		}
		_, _ = io.Copy(io.Discard, response.Body)
		response.Body.Close()
		took[0] = append(took[0], time.Since(start))
		if response.StatusCode != 200 {
			t.Fatalf("the panel answers %d", response.StatusCode)
		}
		start = time.Now()
		conn, _, err := websocket.Dial(t.Context(), "ws://"+address+"/live?page=panel", &websocket.DialOptions{HTTPClient: client, HTTPHeader: head})
		if err != nil {
			t.Fatal(err)
		}
		conn.SetReadLimit(1 << 20)
		(&page{t, conn}).board()
		took[1] = append(took[1], time.Since(start))
		conn.CloseNow()
	}
	slices.Sort(took[0])
	slices.Sort(took[1])
	return took
}

func at(sorted []time.Duration, percent int) time.Duration {
	return sorted[(len(sorted)-1)*percent/100].Round(time.Microsecond)
}

func ratio(a, b time.Duration) float64 { return float64(a) / float64(b) }

// bombard sends what the table of hostile requests has, in turn, until ctx ends; it returns how many.
func bombard(ctx context.Context, address string, from net.IP) int {
	rows := append(append(hostileForms(), hostileTokens()...), hostilePaths()...)
	dialer := &net.Dialer{LocalAddr: &net.TCPAddr{IP: from}}
	ticker := time.NewTicker(hostileEvery)
	defer ticker.Stop()
	for n := 0; ; n++ {
		select {
		case <-ctx.Done():
			return n
		case <-ticker.C:
		}
		conn, err := dialer.DialContext(ctx, "tcp", address)
		if err != nil {
			continue // too many, as it should be
		}
		fmt.Fprint(conn, rows[n%len(rows)].send)
		_, _ = bufio.NewReader(conn).Peek(1)
		conn.Close()
	}
}
