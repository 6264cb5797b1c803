package main

import (
	"bytes"
	"context"
	"log/slog"
	"maps"
	"net"
	"net/http/httptest"
	"slices"
	"testing"
	"time"

	"clocktell/overlay"
	"clocktell/relay"
	"clocktell/relay/bus"
	"clocktell/relay/config"
	"clocktell/testdata/demo"
)

// sharedStation is a station that runs until it is stopped.
type sharedStation struct {
	*station
	address string // of its pages
	stop    func()
}

func runStation(t *testing.T, st *station) *sharedStation {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- st.run(ctx, l) }()
	running := &sharedStation{station: st, address: l.Addr().String()}
	stopped := false
	running.stop = func() {
		if stopped {
			return
		}
		stopped = true
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
	t.Cleanup(running.stop)
	return running
}

// eventually waits for what must come to be.
func eventually(t *testing.T, what string, holds func() bool) {
	t.Helper()
	deadline := time.Now().Add(20 * time.Second)
	for !holds() {
		if time.Now().After(deadline) {
			t.Fatalf("%s did not come to be", what)
		}
		time.Sleep(5 * time.Millisecond)
	}
}

func newTestBus(t *testing.T) *bus.Server {
	t.Helper()
	server, err := bus.Serve(bus.ServerOptions{Listen: "127.0.0.1:0", Dir: t.TempDir()})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(server.Close)
	return server
}

func newTestEdge(t *testing.T, url string) *sharedStation {
	t.Helper()
	o := edgeOptions{serve: config.Default()}
	o.bus = o.serve.Bus
	o.bus.URL = url
	st, err := awaitEdge(t.Context(), o, entrance{}, slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	return runStation(t, st)
}

// TestEdgesHaveTheSameShow lets one process lead the demo's match, and holds what edges have to
// what it has, bit by bit: revisions, log and all. One of them comes when much has happened.
func TestEdgesHaveTheSameShow(t *testing.T) {
	server := newTestBus(t)
	tb := relay.NewTimebase(testSpeed)
	hall, err := newArena(demo.FS, tb.Now)
	if err != nil {
		t.Fatal(err)
	}
	feed := httptest.NewServer(hall)
	defer feed.Close()
	reference, forget, err := demoReference(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	defer forget()
	c := demoConfig(feed.URL+"/games.pgn", reference, demoShow{language: "en", journal: t.TempDir()}, tb)
	c.Bus.URL = server.URL()
	st, err := newStation(t.Context(), c, tb, slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	leader := runStation(t, st)
	early := newTestEdge(t, server.URL())
	plies := func(st *sharedStation) (n int) {
		for _, b := range st.relay.Show().Boards {
			n += len(b.Plies)
		}
		return n
	}
	eventually(t, "a show of 30 plies", func() bool { return plies(leader) >= 30 })
	late := newTestEdge(t, server.URL())
	eventually(t, "a show of 50 plies", func() bool { return plies(leader) >= 50 })
	e := relay.AtPanel{At: early.time.Now(), ID: "note-1", Who: "Ines", Act: relay.PanelNote, Text: "said at an edge"}
	if entered, err := early.enter(t.Context(), e.ID, e); err != nil || entered.Refused != "" {
		t.Fatalf("an entry at an edge: %+v, %v", entered, err)
	}
	leader.stop()
	last := leader.sharing.bus.Now().Last
	for name, edge := range map[string]*sharedStation{"early": early, "late": late} {
		eventually(t, name+" edge at the leader's end", func() bool { return edge.sharing.bus.Now().Last >= last })
		want, got := leader.relay.Show(), edge.relay.Show()
		w := overlay.Snapshot(want)
		eventually(t, name+" edge with all of the log", func() bool { got = edge.relay.Show(); return got.Log.Total >= want.Log.Total && got.At.Equal(want.At) })
		if g := overlay.Snapshot(got); !bytes.Equal(w, g) {
			t.Errorf("the %s edge has another show: %s", name, difference(w, g))
		}
		if want.Log.Total != got.Log.Total || want.HeadRev != got.HeadRev || want.Said.Rev != got.Said.Rev || want.Table.Rev != got.Table.Rev || want.OpinionsRev != got.OpinionsRev {
			t.Errorf("the %s edge has other revisions", name)
		}
	}
	if len(leader.relay.Show().Table.Notes) != 1 {
		t.Errorf("what was entered at an edge is not there")
	}
	now := leader.time.Now()
	still := func() time.Time { return now }
	want := recalledFiles(t, recallJournal(leader.journal, still, leader.log))
	if got := recalledFiles(t, recallBus(late.sharing, still)); len(want) < 10 || !maps.Equal(want, got) {
		t.Errorf("from the bus a recap has %v, from the journal %v", slices.Sorted(maps.Keys(got)), slices.Sorted(maps.Keys(want)))
	}
}

// recalledFiles are the files of a recap.
func recalledFiles(t *testing.T, from recall) map[string]string {
	t.Helper()
	watch, err := from(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	files := make(map[string]string)
	err = watch.Write(func(name string, content []byte) error {
		files[name] = string(content)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// difference is where two texts part.
func difference(want, got []byte) string {
	i := 0
	for i < min(len(want), len(got)) && want[i] == got[i] {
		i++
	}
	from := max(0, i-200)
	return "\nwant …" + string(want[from:min(len(want), i+200)]) + "…\ngot  …" + string(got[from:min(len(got), i+200)]) + "…"
}
