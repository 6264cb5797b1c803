package main

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/coder/websocket"

	"clocktell/relay/relaytest"
)

// TestCrowdOnTheHealthPage: of 150 pages the health page lists a hundred, a late one and itself
// first, and says how many more there are and of what kinds; who has left is no longer counted.
func TestCrowdOnTheHealthPage(t *testing.T) {
	script := axe(t)
	ctx := browser(t)
	address := pagesOf(t, shownGame{Game: relaytest.Game{Control: "600+5", Moves: "e4 e5", Clocks: []string{"0:09:58", "0:09:57"}}})
	var crowd []*websocket.Conn
	for n := range 149 {
		kind := "scene/board"
		if n%3 == 0 {
			kind = "scene/clocks"
		}
		crowd = append(crowd, comes(t, ctx, address, kind))
	}
	keepPinging(t, ctx, crowd)
	visit(t, ctx, address+"/health")
	waitFor(t, ctx, "a hundred rows", `document.querySelectorAll('#pages > .page').length === 100`)
	waitFor(t, ctx, "the sum", `document.querySelector('#pages-words').textContent.startsWith('150 pages connected')`)
	waitFor(t, ctx, "the late page first", `document.querySelector('#pages > .page .newest').textContent.includes('412 ms')`)
	waitFor(t, ctx, "itself second", `document.querySelectorAll('#pages > .page')[1].dataset.page === 'health'`)
	waitFor(t, ctx, "what has no row", `/^and 50 more, none of them in trouble: \d+ scene\/board, \d+ scene\/clocks\./.test(document.querySelector('#more-pages:not([hidden])')?.textContent)`)
	checkAccess(t, ctx, "health, of a crowd", script)
	for _, conn := range crowd[20:] {
		conn.CloseNow()
	}
	waitFor(t, ctx, "those that are left", `document.querySelectorAll('#pages > .page').length === 21 && document.querySelector('#more-pages').hidden`)
}

// comes opens a page's socket, which takes all that is sent and says nothing.
func comes(t *testing.T, ctx context.Context, address, kind string) *websocket.Conn {
	t.Helper()
	conn, _, err := websocket.Dial(ctx, fmt.Sprintf("%s/live?page=%s", strings.Replace(address, "http", "ws", 1), kind), nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.CloseNow() })
	return conn
}

// keepPinging has pages ping as they do, until the test ends. The last of them is always late.
func keepPinging(t *testing.T, ctx context.Context, crowd []*websocket.Conn) {
	t.Helper()
	last := len(crowd) - 1
	ctx, cancel := context.WithCancel(ctx)
	done := make(chan struct{})
	go func() {
		defer close(done)
		ticker := time.NewTicker(2 * time.Second) // pingEveryMs of the welcome
		defer ticker.Stop()
		for ctx.Err() == nil {
			ping(ctx, crowd[:last], "")
			ping(ctx, crowd[last:], "12,412")
			select {
			case <-ticker.C:
			case <-ctx.Done():
			}
		}
	}()
	t.Cleanup(func() {
		cancel()
		<-done
	})
}

// ping sends a ping of each page, with figures of lateness; of one that is gone it is not missed.
func ping(ctx context.Context, crowd []*websocket.Conn, late string) {
	for _, conn := range crowd {
		conn.Write(ctx, websocket.MessageText, fmt.Appendf(nil, `{"type":"ping","t":1,"late":[%s]}`, late))
	}
}
