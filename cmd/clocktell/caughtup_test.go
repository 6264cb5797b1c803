package main

import (
	"encoding/json"
	"fmt"
	"log/slog"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/coder/websocket"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/config"
)

// TestEdgeServesWhenItHasCaughtUp lets people enter things while an edge comes, whose line is
// slow, and a page wait for it: the first that the page is shown is what was entered by then.
func TestEdgeServesWhenItHasCaughtUp(t *testing.T) {
	t.Parallel()
	server := newTestBus(t)
	leader := newTestLeader(t, server.URL())
	line := newProxy(t, server.URL()[len("nats://"):])
	o := edgeOptions{serve: config.Default()}
	o.bus = o.serve.Bus
	o.bus.URL = line.url()
	st, err := awaitEdge(t.Context(), o, entrance{}, slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	last := ""
	for i := range 100 {
		last = fmt.Sprint("note ", i)
		e := relay.AtPanel{At: leader.time.Now(), ID: fmt.Sprint("n", i), Who: "Ines", Act: relay.PanelNote, Text: last}
		if entered, err := leader.enter(t.Context(), e.ID, e); err != nil || entered.Refused != "" {
			t.Fatalf("%+v, %v", entered, err)
		}
	}
	line.slow(20 * time.Millisecond)
	edge := runStation(t, st)
	if table := firstTable(t, edge.address); len(table.Notes) == 0 || table.Notes[len(table.Notes)-1].Text != last {
		t.Errorf("the first that the page is shown has %d notes", len(table.Notes))
	}
}

// newTestLeader leads a show of one game.
func newTestLeader(t *testing.T, url string) *sharedStation {
	t.Helper()
	feed := httptest.NewServer(gameOf("e4 e5 Nf3"))
	t.Cleanup(feed.Close)
	c, source := config.Default(), config.DefaultFeed()
	source.Name, source.URL = "arena", feed.URL+"/games.pgn"
	c.Feeds, c.Bus.URL = []config.Feed{source}, url
	st, err := newStation(t.Context(), c, relay.NewTimebase(1), slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	leader := runStation(t, st)
	eventually(t, "a board", func() bool { return len(leader.relay.Show().Boards) == 1 })
	return leader
}

// firstTable returns the first that a panel is shown of the table.
func firstTable(t *testing.T, address string) (table wire.Table) {
	t.Helper()
	conn, _, err := websocket.Dial(t.Context(), "ws://"+address+"/live?page=panel", nil)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.CloseNow()
	conn.SetReadLimit(1 << 26)
	for table.Type != wire.TypeTable {
		_, data, err := conn.Read(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(data, &table); err != nil {
			table.Type = "" // another frame
		}
	}
	return table
}
