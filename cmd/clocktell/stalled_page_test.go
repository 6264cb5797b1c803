package main

import (
	"context"
	"io"
	"net"
	"net/http"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/coder/websocket"

	"clocktell/relay"
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

// How often a stalled page asks for a board that it does not read, and how many times in
// all: fewer than the relay takes for a flood. Of a long game that is more than what lies
// between can hold.
const (
	askEvery  = 2 * time.Millisecond
	asksInAll = 590
	longGame  = 40 // plies
)

// playLong serves two long games that go on, by a ply in three tenths of a second.
func playLong(s *faultScene) {
	began := time.Now()
	s.server.set(func(w http.ResponseWriter, _ *http.Request) {
		moves := make([]string, min(longGame+int(time.Since(began)/(300*time.Millisecond)), pliesMost))
		for i := range moves {
			moves[i] = there[i%len(there)]
		}
		io.WriteString(w, gameText(badWhite, badBlack, moves)+gameText(goodWhite, goodBlack, moves))
	})
	s.until("a long game", func(show *relay.Show) bool { return len(s.bad(show).Plies) >= longGame })
}

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
		asks := 0
		var enough <-chan time.Time // never
		if comesBack {
			enough = time.After(stalledFor)
		}
		for {
			select {
			case <-again.C:
				if asks++; asks <= asksInAll && conn.Write(ctx, websocket.MessageText, []byte(`{"type":"again","board":1}`)) != nil {
					return
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
