package main

import (
	"bytes"
	"context"
	"io"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/feed"
	"clocktell/relay/relaytest"
)

// moody is an arena's server whose mood a test sets.
type moody struct {
	mood atomic.Pointer[http.HandlerFunc]
}

func (m *moody) ServeHTTP(w http.ResponseWriter, r *http.Request) { (*m.mood.Load())(w, r) }

func (m *moody) set(h http.HandlerFunc) { m.mood.Store(&h) }

// gameOf answers with a game as far as these moves.
func gameOf(moves string) http.HandlerFunc {
	text := relaytest.Packet(relaytest.Game{Control: "600+5", Moves: moves, Clocks: []string{"0:10:03", "0:10:02", "0:10:01"}})
	return func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, text) }
}

const staleAfter = 700 * time.Millisecond

// faultyShow runs a whole show against a moody server.
type faultyShow struct {
	t      *testing.T
	server *moody
	addr   string
	st     *station
	close  func() // the server goes away
}

func newFaultyShow(t *testing.T) *faultyShow {
	t.Helper()
	f := &faultyShow{t: t, server: &moody{}, addr: "127.0.0.1:0"}
	f.server.set(gameOf("e4 e5"))
	f.open()
	c := config.Default()
	source := config.DefaultFeed()
	source.Name, source.URL = "arena", "http://"+f.addr+"/games.pgn"
	source.Every.Duration, source.Timeout.Duration = 50*time.Millisecond, 200*time.Millisecond
	source.MaxWait.Duration, source.LateAfter.Duration, source.StaleAfter.Duration = 200*time.Millisecond, 400*time.Millisecond, staleAfter
	source.MaxBytes = 1 << 20
	c.Feeds = []config.Feed{source}
	var err error
	if f.st, err = newStation(t.Context(), c, relay.NewTimebase(1), slog.New(slog.DiscardHandler)); err != nil {
		t.Fatal(err)
	}
	pages, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error)
	go func() { done <- f.st.run(ctx, pages) }()
	t.Cleanup(func() {
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
		f.close()
	})
	return f
}

// open starts the moody server, at the address it had before if it had one.
func (f *faultyShow) open() {
	f.t.Helper()
	l, err := net.Listen("tcp", f.addr)
	if err != nil {
		f.t.Fatal(err)
	}
	f.addr = l.Addr().String()
	server := &http.Server{Handler: f.server}
	done := make(chan error)
	go func() { done <- server.Serve(l) }()
	f.close = func() {
		server.Close()
		<-done
		f.close = func() {}
	}
}

// until waits for a state of the show.
func (f *faultyShow) until(what string, holds func(*relay.Show) bool) *relay.Show {
	f.t.Helper()
	subscription := f.st.relay.Subscribe()
	defer subscription.Close()
	limit := time.After(patience)
	for {
		select {
		case <-subscription.C:
			if show := f.st.relay.Show(); holds(show) {
				return show
			}
		case <-limit:
			f.t.Fatalf("waited in vain for %s", what)
		}
	}
}

func plies(show *relay.Show) int {
	if len(show.Boards) == 0 {
		return 0
	}
	return len(show.Boards[0].Plies)
}

// TestFeedFaults runs a whole show against every way a feed may misbehave: the
// last good state stays on the air, the feed is called stale exactly in time,
// the reason is named, and all is well again when the feed is.
func TestFeedFaults(t *testing.T) {
	half := relaytest.Packet(relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3"})
	for _, test := range []struct {
		name   string
		reason feed.Reason
		mood   http.HandlerFunc // nil: the server goes away
	}{
		{"500", feed.ReasonStatus, func(w http.ResponseWriter, _ *http.Request) {
			http.Error(w, "out of order", http.StatusInternalServerError)
		}},
		{"hangs", feed.ReasonTimeout, func(_ http.ResponseWriter, r *http.Request) { <-r.Context().Done() }},
		{"half a file", feed.ReasonCut, func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Length", "5000")
			io.WriteString(w, half[:len(half)/2])
		}},
		{"a web page", feed.ReasonNotPGN, func(w http.ResponseWriter, _ *http.Request) {
			io.WriteString(w, "<!doctype html><h1>e4 is under maintenance</h1>")
		}},
		{"50 MB", feed.ReasonTooLarge, func(w http.ResponseWriter, _ *http.Request) {
			io.Copy(w, io.LimitReader(endless{}, 50<<20))
		}},
		{"goes away", feed.ReasonConnect, nil},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			f := newFaultyShow(t)
			f.until("the first picture", func(s *relay.Show) bool { return plies(s) == 2 })
			if test.mood == nil {
				f.close()
			} else {
				f.server.set(test.mood)
			}
			show := f.until("stale", func(s *relay.Show) bool { return s.Feeds[0].State == relay.FeedStale })
			b := show.Boards[0]
			if plies(show) != 2 || !b.Held() {
				t.Errorf("%d plies, held %v; want the last good state, held", plies(show), b.Held())
			}
			if got := b.HeldAt.Sub(b.Silent); got != staleAfter {
				t.Errorf("stale after %v of silence, want %v", got, staleAfter)
			}
			if fault := show.Feeds[0].LastFault; fault == nil || fault.Reason != string(test.reason) || fault.Text == "" {
				t.Errorf("fault = %+v, want %s with words", fault, test.reason)
			}
			if !hasPrompt(show, relay.AlertFeedStale) {
				t.Error("no prompt says that the feed is stale")
			}
			f.server.set(gameOf("e4 e5 Nf3"))
			if test.mood == nil {
				f.open()
			}
			show = f.until("recovery", func(s *relay.Show) bool { return plies(s) == 3 })
			if show.Feeds[0].State != relay.FeedOK || show.Boards[0].Held() || hasPrompt(show, relay.AlertFeedStale) {
				t.Errorf("recovered, and state %v, held %v", show.Feeds[0].State, show.Boards[0].Held())
			}
		})
	}
}

// TestUnannouncedHalf: half a file without a length looks like an answer. The
// board must not lose a move by it, nor gain half of one.
func TestUnannouncedHalf(t *testing.T) {
	f := newFaultyShow(t)
	f.until("the first picture", func(s *relay.Show) bool { return plies(s) == 2 })
	whole := relaytest.Packet(relaytest.Game{Control: "600+5", Moves: "e4 e5 Nf3 Nc6"})
	cut := strings.Index(whole, " Nc6") + len(" N")
	f.server.set(func(w http.ResponseWriter, _ *http.Request) {
		io.WriteString(w, whole[:cut])
		w.(http.Flusher).Flush() // chunked: no length is announced
	})
	show := f.until("the half", func(s *relay.Show) bool { return plies(s) == 3 })
	if b := show.Boards[0]; b.Fault != "" || b.Correction != nil || b.Plies[2].SAN != "Nf3" {
		t.Errorf("fault %q, correction %v, last %s", b.Fault, b.Correction, b.Plies[2].SAN)
	}
	f.server.set(func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, whole) })
	f.until("the whole", func(s *relay.Show) bool { return plies(s) == 4 })
}

func hasPrompt(show *relay.Show, kind relay.AlertKind) bool {
	for _, item := range show.Said.Items {
		if item.Alert.Kind == kind && item.Withdrawn.IsZero() {
			return true
		}
	}
	return false
}

// endless is a source of PGN-like bytes that never ends.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	const line = "[Event \"x\"]\n1. e4 e5 *\n\n"
	return copy(p, bytes.Repeat([]byte(line), len(p)/len(line)+1)), nil
}
