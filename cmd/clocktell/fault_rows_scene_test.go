package main

import (
	"cmp"
	"context"
	"crypto/tls"
	"io"
	"log"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
)

// The feeds of a fault scene.
const (
	arenaFeed  = "arena"
	backupFeed = "arena-b"
)

// rowPatience is how long a row waits for anything. Nothing is timed by it.
const rowPatience = 30 * time.Second

// faultScene is a whole show that runs, and the server it hears.
type faultScene struct {
	t      *testing.T
	row    *faultRow
	server moody
	addr   string // of the server
	stop   func() // the server goes away
	st     *station
	pages  string // address of the show's pages

	scene context.Context // of a page that is open
	close context.CancelFunc
}

func newFaultScene(t *testing.T, row *faultRow) *faultScene {
	t.Helper()
	s := &faultScene{t: t, row: row, addr: cmp.Or(row.at, "127.0.0.1:0")}
	s.server.set(answer(s.packet(s.before(), beforePlies)))
	s.open()
	t.Cleanup(func() { s.stop() })
	var err error
	tb := relay.NewTimebase(cmp.Or(row.rate, 1))
	if s.st, err = newStation(t.Context(), s.config(), tb, slog.New(slog.DiscardHandler)); err != nil {
		t.Fatal(err)
	}
	if row.wire != nil {
		row.wire(s.st)
	}
	pages, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s.pages = "http://" + pages.Addr().String()
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error)
	go func() { done <- s.st.run(ctx, pages) }()
	t.Cleanup(func() {
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	return s
}

// config is a show that polls quickly, and is patient enough for a busy machine.
func (s *faultScene) config() config.Config {
	source := config.DefaultFeed()
	source.Name, source.URL = arenaFeed, s.row.url
	if source.URL == "" {
		source.URL = s.base() + "/games.pgn"
	}
	source.Every.Duration, source.Timeout.Duration, source.MaxWait.Duration = 20*time.Millisecond, rowPatience, 40*time.Millisecond
	source.LateAfter.Duration, source.StaleAfter.Duration = rowPatience, 2*rowPatience
	source.MaxBytes = 4 << 20
	c := config.Default()
	c.Feeds = []config.Feed{source}
	if s.row.backup {
		source.Name, source.URL, source.BackupOf = backupFeed, s.base()+"/backup.pgn", arenaFeed
		c.Feeds = append(c.Feeds, source)
	}
	if s.row.adjust != nil {
		s.row.adjust(&c)
	}
	return c
}

func (s *faultScene) base() string {
	if s.row.secure != nil {
		return "https://" + s.addr
	}
	return "http://" + s.addr
}

// open starts the server, at the address it had before if it had one.
func (s *faultScene) open() {
	s.t.Helper()
	l, err := net.Listen("tcp", s.addr)
	if err != nil {
		s.t.Fatal(err)
	}
	s.addr = l.Addr().String()
	server := &http.Server{Handler: &s.server, ErrorLog: log.New(io.Discard, "", 0)}
	if s.row.secure != nil {
		server.TLSConfig = &tls.Config{GetCertificate: s.row.secure.show, NextProtos: []string{"http/1.1"}}
		server.SetKeepAlivesEnabled(false) // a handshake with every poll
		l = tls.NewListener(l, server.TLSConfig)
	}
	done := make(chan error)
	go func() { done <- server.Serve(l) }()
	s.stop = func() {
		server.Close()
		<-done
		s.stop = func() {}
	}
}

// leave lets nobody answer any more.
func (s *faultScene) leave() { s.stop() }

// until waits for a state of the show.
func (s *faultScene) until(what string, holds func(*relay.Show) bool) *relay.Show {
	s.t.Helper()
	subscription := s.st.relay.Subscribe()
	defer subscription.Close()
	limit := time.After(rowPatience)
	for {
		select {
		case <-subscription.C:
			if show := s.st.relay.Show(); holds(show) {
				return show
			}
		case <-limit:
			s.t.Fatalf("waited in vain for %s; the show: %s", what, told(s.st.relay.Show()))
		}
	}
}

// bothShow reports that the two boards have so many plies.
func (s *faultScene) bothShow(bad, good int) func(*relay.Show) bool {
	return func(show *relay.Show) bool {
		return len(show.Boards) >= 2 && len(s.bad(show).Plies) == bad && len(s.good(show).Plies) == good
	}
}

// bad returns the board that suffers.
func (s *faultScene) bad(show *relay.Show) *relay.Board {
	if s.row.last {
		return show.Boards[1]
	}
	return show.Boards[0]
}

// good returns the other one.
func (s *faultScene) good(show *relay.Show) *relay.Board {
	if s.row.last {
		return show.Boards[0]
	}
	return show.Boards[1]
}

// metrics asks the show for its metrics as Prometheus does, and returns the value of
// each series.
func (s *faultScene) metrics() map[string]string {
	s.t.Helper()
	transport := &http.Transport{DisableKeepAlives: true}
	resp, err := (&http.Client{Transport: transport, Timeout: rowPatience}).Get(s.pages + "/metrics")
	if err != nil {
		s.t.Fatal(err)
	}
	defer resp.Body.Close()
	text, err := io.ReadAll(resp.Body)
	if err != nil || resp.StatusCode != http.StatusOK {
		s.t.Fatalf("metrics: status %d, %v", resp.StatusCode, err)
	}
	series := make(map[string]string)
	for line := range strings.Lines(string(text)) {
		if name, value, found := strings.Cut(strings.TrimSpace(line), " "); found && name != "#" {
			series[name] = value
		}
	}
	return series
}

// answer answers with a text.
func answer(text string) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, text) }
}
