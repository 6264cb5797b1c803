package main

import (
	"context"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/coder/websocket"
)

// served is a relay that sends every page the same frames, and then does what end says. It
// speaks through a library, so that our own sockets are held to it.
func served(t *testing.T, end func(context.Context, *websocket.Conn), frames ...string) string {
	t.Helper()
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		conn, err := websocket.Accept(w, r, nil)
		if err != nil {
			return // it has answered
		}
		defer conn.CloseNow()
		for _, f := range frames {
			if err := conn.Write(r.Context(), websocket.MessageText, []byte(f)); err != nil {
				t.Error(err)
			}
		}
		end(r.Context(), conn)
	}))
	t.Cleanup(server.Close)
	return strings.TrimPrefix(server.URL, "http://")
}

func crowdAt(address string) *crowd {
	o := options{boards: 1, feeds: 1, seed: 1}
	c := newCrowd(o, nil)
	c.places, c.tally = places{{address: address}}, newTally([]string{"scene/board", hostileKind})
	return c
}

// TestPageOverSocket: a page takes frames of any length from a socket of a library, sends
// its pings masked, and counts what is wrong with what it was sent.
func TestPageOverSocket(t *testing.T) {
	long := text("show", `"rev":1,"title":"`+strings.Repeat("x", 70_000)+`"`)
	var pings []string
	address := served(t, func(ctx context.Context, conn *websocket.Conn) {
		_, data, err := conn.Read(ctx)
		if err != nil {
			t.Error(err)
		}
		pings = append(pings, string(data))
		conn.Close(1001, "the relay stops")
	}, welcome, long, text("show", `"rev":2,"title":"`+strings.Repeat("y", 200)+`"`), long)
	c := crowdAt(address)
	p := c.newPage(1, wantOf("scene/board", 0, 1), healthy)
	welcomed, err := p.visit(t.Context())
	if end := (closed{1001, "the relay stops"}); !welcomed || err != end {
		t.Errorf("welcomed %v, %v", welcomed, err)
	}
	if len(pings) != 1 || !strings.HasPrefix(pings[0], `{"type":"ping","t":`) {
		t.Errorf("%q", pings)
	}
	if n := c.tally.of("scene/board", healthy); n.frames.Load() != 4 || n.breaches[breachOrder].Load() != 1 || n.wrong() != 1 || n.open.Load() != 0 {
		t.Errorf("%d frames, %d breaches, %d open: %v", n.frames.Load(), n.wrong(), n.open.Load(), c.tally.told)
	}
	p.judgeEnd(welcomed, err)
	if c.tally.of("scene/board", healthy).breaches[breachCut].Load() != 1 {
		t.Error("that it was cut off is not counted")
	}
}

// TestHostileIsJudged: a relay that turns a misdeed away with its code has done right, one
// that says good-bye otherwise has not.
func TestHostileIsJudged(t *testing.T) {
	for code, wrong := range map[websocket.StatusCode]uint64{websocket.StatusUnsupportedData: 0, websocket.StatusNormalClosure: 1} {
		address := served(t, func(ctx context.Context, conn *websocket.Conn) {
			if kind, _, err := conn.Read(ctx); err != nil || kind != websocket.MessageBinary {
				t.Errorf("%v, %v", kind, err)
			}
			conn.Close(code, "")
		}, welcome)
		c := crowdAt(address)
		o := &offender{address: address, counts: c.tally.of(hostileKind, hostile), tally: c.tally}
		o.offend(t.Context(), misdeeds[0])
		if got := o.counts.wrong(); got != wrong || o.counts.came.Load() != 1 {
			t.Errorf("%d: %d breaches, want %d: %v", code, got, wrong, c.tally.told)
		}
	}
}

// TestHerdLeavesTheDead: a page whose pings are not answered gives its socket up.
func TestHerdLeavesTheDead(t *testing.T) {
	address := served(t, func(ctx context.Context, conn *websocket.Conn) {
		for {
			if _, _, err := conn.Read(ctx); err != nil {
				return
			}
		}
	}, welcome)
	c := crowdAt(address)
	p := c.newPage(1, wantOf("scene/board", 0, 1), healthy)
	ended := make(chan error, 1)
	go func() {
		_, err := p.visit(t.Context())
		ended <- err
	}()
	later := c.now()
	for {
		select {
		case err := <-ended:
			if p.unanswered <= silentPings {
				t.Errorf("after %d pings: %v", p.unanswered, err)
			}
			return
		default:
			later = later.Add(3 * time.Second)
			p.tend(later)
		}
	}
}
