package main

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/coder/websocket"

	"clocktell/overlay/wire"
)

// watch holds what pages are shown, at several processes, against each other: the same
// revision of a show is the same everywhere, none comes after a later one, and the show log
// is whole on each page.
type watch struct {
	t         *testing.T
	wg        sync.WaitGroup
	pingEvery time.Duration

	mu     sync.Mutex // protects following, and what pages hold
	faults []string
	shown  map[string]string                  // by run, frame and revision: what it was
	lines  map[string]map[uint64]wire.LogLine // of the show log, by run
	runs   []string
	frames int
	told   int // lines of the show log, on all pages
	stop   context.CancelFunc
	ctx    context.Context
}

func newWatch(t *testing.T) *watch {
	w := &watch{t: t, pingEvery: time.Second, shown: make(map[string]string), lines: make(map[string]map[uint64]wire.LogLine)}
	w.ctx, w.stop = context.WithCancel(context.Background())
	t.Cleanup(w.close)
	return w
}

func (w *watch) close() {
	w.stop()
	w.wg.Wait()
}

func (w *watch) wrong(format string, args ...any) {
	if len(w.faults) < 20 {
		w.faults = append(w.faults, fmt.Sprintf(format, args...))
	}
}

// check reports what has been found wrong so far.
func (w *watch) check() {
	w.t.Helper()
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, fault := range w.faults {
		w.t.Error(fault)
	}
	w.faults = nil
}

// watchBegan is where pages count their own time from.
var watchBegan = time.Now()

// clockSeen is show time as a page knows it from a pong: at came it was now, give or take
// the way there and back.
type clockSeen struct {
	came      time.Time
	now       time.Time
	roundTrip time.Duration
}

// watched is a page that comes back whenever it has lost its process.
type watched struct {
	w    *watch
	name string // for people
	page string // "panel" or "health"
	at   func() string

	pause time.Duration // before it comes again
	moves bool          // from process to process, which may be behind each other for a moment

	// Protected by watch.mu.
	run     string
	boards  map[int]wire.Board
	revs    map[string]uint64
	line    uint64 // of the show log, the newest
	seen    int64  // when the newest board came, show time
	feeds   wire.Feeds
	table   wire.Table
	pliesAt []time.Time          // when so many plies of the feed were there at first
	behind  map[string]time.Time // since when it is shown what is older than what it was shown elsewhere
	older   time.Duration        // the longest such time
	came    int
	ran     int // shows that it has been shown
	conn    *websocket.Conn
	clocks  []clockSeen
}

// open opens a page at the address that at returns whenever the page comes.
func (w *watch) open(name, page string, at func() string) *watched {
	return w.openTo(&watched{w: w, name: name + "/" + page, page: page, at: at, boards: make(map[int]wire.Board), revs: make(map[string]uint64), pause: 20 * time.Millisecond})
}

// openMoving opens a page that goes to another process each time, and comes again after the
// shortest time in which ours do (live.js).
func (w *watch) openMoving(name, page string, at func() string) *watched {
	return w.openTo(&watched{w: w, name: name + "/" + page, page: page, at: at, boards: make(map[int]wire.Board), revs: make(map[string]uint64), pause: 125 * time.Millisecond, moves: true})
}

func (w *watch) openTo(p *watched) *watched {
	w.wg.Go(p.stay)
	return p
}

// stay reads until the watch ends.
func (p *watched) stay() {
	for p.w.ctx.Err() == nil {
		p.visit()
		select {
		case <-time.After(p.pause):
		case <-p.w.ctx.Done():
		}
	}
}

func (p *watched) visit() {
	ctx, cancel := context.WithTimeout(p.w.ctx, 2*time.Second)
	conn, _, err := websocket.Dial(ctx, "ws://"+p.at()+"/live?page="+p.page+p.has(), nil)
	cancel()
	if err != nil {
		return
	}
	defer conn.CloseNow()
	conn.SetReadLimit(1 << 26)
	p.w.mu.Lock()
	p.conn = conn
	p.came++
	clear(p.boards) // it is sent whole ones
	p.w.mu.Unlock()
	pinging := make(chan struct{})
	defer func() { <-pinging }()
	ctx, cancel = context.WithCancel(p.w.ctx)
	defer cancel()
	go func() { // the one that keeps the page from being taken for gone
		defer close(pinging)
		p.ping(ctx, conn)
	}()
	for {
		_, data, err := conn.Read(ctx)
		if err != nil {
			return
		}
		p.w.mu.Lock()
		p.take(data)
		p.w.mu.Unlock()
	}
}

// has is what a page that goes from process to process says of itself, as ours do.
func (p *watched) has() (query string) {
	p.sees(func() {
		if p.moves && p.run != "" {
			query = fmt.Sprintf("&run=%s&log=%d&seen=%d", p.run, p.line, p.seen)
		}
	})
	return query
}

func (p *watched) ping(ctx context.Context, conn *websocket.Conn) {
	for {
		text, err := json.Marshal(wire.Ping{Type: wire.TypePing, T: float64(time.Since(watchBegan).Milliseconds()), Late: []int64{}})
		if err != nil {
			panic(err)
		}
		if conn.Write(ctx, websocket.MessageText, text) != nil {
			return
		}
		select {
		case <-time.After(p.w.pingEvery):
		case <-ctx.Done():
			return
		}
	}
}

// leave lets the page come again, at the address that at returns then.
func (p *watched) leave() {
	p.w.mu.Lock()
	conn := p.conn
	p.w.mu.Unlock()
	if conn != nil {
		conn.CloseNow()
	}
}

// sees runs a look at what the page holds.
func (p *watched) sees(look func()) {
	p.w.mu.Lock()
	defer p.w.mu.Unlock()
	look()
}

// hand returns the moves on the board that is led by hand.
func (p *watched) hand() (moves []string) {
	p.sees(func() { moves = sans(p.boards[handBoard]) })
	return moves
}

// plies returns how many plies of the feed the page shows, and when it first did so many as n.
func (p *watched) plies(n int) (most int, at time.Time) {
	p.sees(func() {
		most = len(p.pliesAt)
		if n > 0 && n <= most {
			at = p.pliesAt[n-1]
		}
	})
	return most, at
}

func (p *watched) countPlies() {
	total := 0
	for number, b := range p.boards {
		if number != handBoard {
			total += len(b.Plies)
		}
	}
	for len(p.pliesAt) < total {
		p.pliesAt = append(p.pliesAt, time.Now())
	}
}

// heldEqual is what of a board is compared between processes: all but the moves before the
// last few, which were compared when they were the last.
func heldEqual(b wire.Board) string {
	b.Base, b.Keep = 0, 0
	b.Plies = slices.Clone(b.Plies[max(0, len(b.Plies)-6):])
	text, err := json.Marshal(b)
	if err != nil {
		panic(err)
	}
	return string(text)
}
