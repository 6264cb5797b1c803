package main

import (
	"context"
	"database/sql"
	"fmt"
	"io"
	"net/http"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/coder/websocket"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/metrics"
)

// alertScene is a show that has a fault after a while, and the alert that this raises.
type alertScene struct {
	alert string   // "": none, the match is a normal one
	may   []string // what may be raised too, on the way
	rate  float64  // of show time; 0: 1
	// The feed and the fault.
	backup bool
	adjust func(t *testing.T, c *config.Config)
	engine func() metrics.EngineFigures // nil: there is none
	bus    func() metrics.Bus           // nil: as it is
	ofShow bool                         // the alert is of the show, not of one relay
	before func(s *faultScene)          // once the show runs
	begin  func(s *faultScene)          // once Prometheus has scraped all
}

// quickly makes a feed late and stale after short silences.
func quickly(feed string, late, stale time.Duration) func(*testing.T, *config.Config) {
	return func(_ *testing.T, c *config.Config) {
		for i := range c.Feeds {
			if c.Feeds[i].Name == feed {
				c.Feeds[i].LateAfter.Duration, c.Feeds[i].StaleAfter.Duration = late, stale
			}
		}
	}
}

// first waits until boards follow the feed in front, whichever was heard first.
func first(s *faultScene) {
	s.until("the feed in front to be followed", func(show *relay.Show) bool {
		return len(show.Boards) == 2 && show.Boards[0].Feed == arenaFeed && show.Boards[1].Feed == arenaFeed
	})
}

// falling are alerts that a feed may raise on its way to silence.
var falling = []string{"FeedFailing", "FeedOftenLate"}

// failing answers with 500 under paths that hold a text, and else with both games.
func failing(path string) func(*faultScene) {
	return func(s *faultScene) {
		text := s.packet(beforePlies, beforePlies)
		s.server.set(func(w http.ResponseWriter, r *http.Request) {
			if strings.Contains(r.URL.Path, path) {
				http.Error(w, "out of order", http.StatusInternalServerError)
				return
			}
			io.WriteString(w, text)
		})
	}
}

// serving answers with the game that suffers, changed, and the other one.
func serving(bad string) func(*faultScene) {
	return func(s *faultScene) { s.server.set(answer(bad + faultGames{s}.good(beforePlies))) }
}

func suffering(moves string) string { return gameText(badWhite, badBlack, strings.Fields(moves)) }

func hand(e relay.ByHand) func(*faultScene) {
	return func(s *faultScene) {
		e.At, e.ID, e.Board = s.st.time.Now(), "by-hand", 1
		s.st.heard <- e
		s.until("the entry", func(show *relay.Show) bool { _, done := show.Entry("by-hand"); return done })
	}
}

// journalled gives the show a journal.
func journalled(t *testing.T, c *config.Config) { c.Journal.Dir = t.TempDir() }

// page opens a page of the show; the context ends it.
func (s *faultScene) page(ctx context.Context, kind string) *websocket.Conn {
	s.t.Helper()
	conn, _, err := websocket.Dial(ctx, strings.Replace(s.pages, "http", "ws", 1)+"/live?page="+kind,
		&websocket.DialOptions{HTTPClient: &http.Client{Transport: &http.Transport{DisableKeepAlives: true}}})
	if err != nil {
		s.t.Fatal(err)
	}
	conn.SetReadLimit(1 << 24)
	left := make(chan struct{})
	go func() {
		defer close(left)
		for {
			if _, _, err := conn.Read(ctx); err != nil {
				return
			}
		}
	}()
	s.t.Cleanup(func() {
		conn.CloseNow()
		<-left
	})
	return conn
}

// latePage is a page that says that it has drawn so many boards so late.
func latePage(boards, ms int) func(*faultScene) {
	return func(s *faultScene) {
		conn := s.page(context.Background(), "scene/board")
		late := strings.TrimSuffix(strings.Repeat(fmt.Sprintf("%d,", ms), boards), ",")
		if err := conn.Write(s.t.Context(), websocket.MessageText, []byte(`{"type":"ping","t":1,"late":[`+late+`]}`)); err != nil {
			s.t.Fatal(err)
		}
	}
}

// matchTime is how many times as fast as the wall the normal match is played: a move of
// 13 seconds, as leftAfter has them, takes about a second.
const matchTime = 13

// playOn serves both games, which go on at the pace of their clocks.
func playOn(s *faultScene) {
	began := time.Now()
	s.server.set(func(w http.ResponseWriter, _ *http.Request) {
		plies := min(beforePlies+int(time.Since(began)/time.Second), len(goodLine))
		io.WriteString(w, s.packet(plies, plies))
	})
	latePage(200, 20)(s)
}

// everySecond fails every second poll.
func everySecond(s *faultScene) {
	var polls atomic.Int64
	text := s.packet(beforePlies, beforePlies)
	s.server.set(func(w http.ResponseWriter, _ *http.Request) {
		if polls.Add(1)%2 == 0 {
			w.WriteHeader(http.StatusServiceUnavailable)
		}
		io.WriteString(w, text)
	})
}

// pushBadly pushes with a wrong token.
func pushBadly(s *faultScene) {
	r, err := http.NewRequest(http.MethodPut, s.pages+"/push/door", strings.NewReader(suffering("e4")))
	if err != nil {
		s.t.Fatal(err)
	}
	r.Header.Set("Authorization", "Bearer wrong")
	resp, err := (&http.Client{Transport: &http.Transport{DisableKeepAlives: true}}).Do(r)
	if err != nil {
		s.t.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != http.StatusUnauthorized {
		s.t.Errorf("a push with a wrong token: status %d", resp.StatusCode)
	}
}

// crowd opens more pages than there may be.
func crowd(s *faultScene) {
	for range 3 {
		s.page(context.Background(), "panel")
	}
}

// lockJournal keeps the relay from writing, as another program would that holds its file.
func lockJournal(s *faultScene) {
	shows, err := filepath.Glob(filepath.Join(filepath.Dir(s.st.journal.Path()), "show-*.db"))
	if err != nil || len(shows) != 1 {
		s.t.Fatalf("shows %v, %v", shows, err)
	}
	db, err := sql.Open("sqlite", shows[0])
	if err != nil {
		s.t.Fatal(err)
	}
	db.SetMaxOpenConns(1)
	s.t.Cleanup(func() { db.Close() }) // before the relay is closed, which writes what waits
	if _, err := db.Exec("BEGIN IMMEDIATE"); err != nil {
		s.t.Fatal(err)
	}
	s.server.set(answer(s.packet(duringPlies, duringPlies)))
}

// jumping serves games of which two moves come soon after one another, and the next long
// after its clock says.
func jumping(s *faultScene) {
	began := time.Now()
	s.server.set(func(w http.ResponseWriter, _ *http.Request) {
		const soon, pair = 200 * time.Millisecond, 800 * time.Millisecond
		since := time.Since(began)
		plies := beforePlies + 2*int(since/pair)
		if since%pair > soon {
			plies++
		}
		plies = min(plies, 40)
		var moves []string
		for i := range plies {
			moves = append(moves, there[i%len(there)])
		}
		io.WriteString(w, gameText(badWhite, badBlack, moves)+gameText(goodWhite, goodBlack, moves))
	})
}
