package main

import (
	"context"
	"net"
	"net/http"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/coder/websocket"
)

// stalledBuffer is how much a stalled page's machine takes before somebody reads it.
const stalledBuffer = 4 << 10

// stalledFor is how long a page that comes back reads nothing: less than the relay waits
// for a frame to be taken.
const stalledFor = 3 * time.Second

// dialSlowly opens a page whose machine takes next to nothing by itself.
func dialSlowly(ctx context.Context, t *testing.T, address string) *websocket.Conn {
	t.Helper()
	dialer := &net.Dialer{Control: func(_, _ string, c syscall.RawConn) (err error) {
		outer := c.Control(func(fd uintptr) {
			err = syscall.SetsockoptInt(int(fd), syscall.SOL_SOCKET, syscall.SO_RCVBUF, stalledBuffer)
		})
		if err == nil {
			err = outer
		}
		return err
	}}
	client := &http.Client{Transport: &http.Transport{DialContext: dialer.DialContext, DisableKeepAlives: true}}
	conn, _, err := websocket.Dial(ctx, "ws://"+address+"/live?page=panel", &websocket.DialOptions{HTTPClient: client})
	if err != nil {
		t.Fatal(err)
	}
	conn.SetReadLimit(1 << 24)
	return conn
}

// How often a stalled page asks for a board that it does not read, and how many times then:
// fewer than the relay lets wait.
const (
	askEvery   = time.Millisecond
	asksAtOnce = 6
)

// stalls opens a page that reads nothing and asks for the board again and again, until
// what lies between is full and the relay gives it up. If it comes back, it stops asking
// sooner and reads what there is.
func stalls(s *faultScene, comesBack bool) {
	s.t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	conn, left := dialSlowly(ctx, s.t, strings.TrimPrefix(s.pages, "http://")), make(chan struct{})
	go func() {
		defer close(left)
		again := time.NewTicker(askEvery)
		defer again.Stop()
		var enough <-chan time.Time // never
		if comesBack {
			enough = time.After(stalledFor)
		}
		for {
			select {
			case <-again.C:
				for range asksAtOnce {
					if conn.Write(ctx, websocket.MessageText, []byte(`{"type":"again","board":1}`)) != nil {
						return
					}
				}
				continue
			case <-ctx.Done():
				return
			case <-enough:
			}
			for {
				if _, _, err := conn.Read(ctx); err != nil {
					return
				}
			}
		}
	}()
	s.t.Cleanup(func() {
		stop()
		conn.CloseNow()
		<-left
	})
}
