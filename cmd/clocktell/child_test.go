package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/coder/websocket"

	"clocktell/overlay/wire"
	"clocktell/relay/relaytest"
)

// buildProgram builds clocktell as its users do, without the race detector, and
// returns its path.
func buildProgram(t testing.TB) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "clocktell")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("build: %v\n%s", err, out)
	}
	return program
}

// built is the program of the tests that share one; TestMain deletes its folder.
var built struct {
	once sync.Once
	dir  string
	err  error
}

// builtOnce is buildProgram for tests that start many.
func builtOnce(t *testing.T) string {
	t.Helper()
	built.once.Do(func() {
		if built.dir, built.err = os.MkdirTemp("", "clocktell-test-"); built.err == nil {
			built.err = exec.Command("go", "build", "-o", filepath.Join(built.dir, "clocktell"), ".").Run()
		}
	})
	if built.err != nil {
		t.Fatalf("build: %v", built.err)
	}
	return filepath.Join(built.dir, "clocktell")
}

// child is a clocktell process of its own.
type child struct {
	t       testing.TB
	command *exec.Cmd
	out     io.ReadCloser
	once    sync.Once
	ended   chan struct{} // closed when it has
	address string        // of its pages
}

func startChild(t testing.TB, program string, args ...string) *child {
	t.Helper()
	return startChildTo(t, os.Stderr, program, args...)
}

// startChildTo is startChild for a process whose log is kept elsewhere.
func startChildTo(t testing.TB, log io.Writer, program string, args ...string) *child {
	t.Helper()
	c := &child{t: t, command: exec.Command(program, args...), ended: make(chan struct{})}
	c.command.Stderr = log
	var err error
	if c.out, err = c.command.StdoutPipe(); err != nil {
		t.Fatal(err)
	}
	if err := c.command.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(c.kill)
	return c
}

func (c *child) waitForAddress() {
	c.t.Helper()
	lines := bufio.NewScanner(c.out)
	for lines.Scan() {
		if _, rest, found := strings.Cut(lines.Text(), "http://"); found {
			c.address, _, _ = strings.Cut(rest, "/")
			return
		}
	}
	c.t.Fatal("the process ended before it printed its addresses")
}

// kill ends the process as a power cut would, and waits for its end.
func (c *child) kill() {
	c.once.Do(func() {
		c.command.Process.Kill()
		c.command.Wait() // tells that it was killed, which is no news
		close(c.ended)
	})
}

// panel is a page that reads what it is sent until its process ends.
type panel struct{ done chan struct{} }

func openPage(t *testing.T, address string, see func(wire.Board)) *panel {
	t.Helper()
	conn := dial(t, address)
	p := &panel{done: make(chan struct{})}
	go func() {
		defer close(p.done)
		defer conn.CloseNow()
		for {
			_, data, err := conn.Read(context.Background())
			if err != nil {
				return
			}
			var b wire.Board
			if json.Unmarshal(data, &b) == nil && b.Type == wire.TypeBoard {
				see(b)
			}
		}
	}()
	return p
}

func (p *panel) wait() { <-p.done }

func dial(t *testing.T, address string) *websocket.Conn {
	t.Helper()
	conn, _, err := websocket.Dial(t.Context(), "ws://"+address+"/live?page=panel", nil)
	if err != nil {
		t.Fatal(err)
	}
	conn.SetReadLimit(1 << 24)
	return conn
}

// firstFrames returns every board whole, as a page that comes is shown it.
func firstFrames(t *testing.T, address string) []wire.Board {
	t.Helper()
	conn := dial(t, address)
	defer conn.CloseNow()
	var boards []wire.Board
	want := -1
	for want < 0 || len(boards) < want {
		_, data, err := conn.Read(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		var show wire.Show
		var b wire.Board
		if json.Unmarshal(data, &show) == nil && show.Type == wire.TypeShow {
			want = show.Boards
		}
		if json.Unmarshal(data, &b) == nil && b.Type == wire.TypeBoard && b.Base == 0 {
			boards = append(boards, b)
		}
	}
	return boards
}

// post sends an entry by hand. The error says that nothing was acknowledged.
func post(address string, e wire.Entry) (wire.EntryReply, error) {
	var reply wire.EntryReply
	body, err := json.Marshal(e)
	if err != nil {
		return reply, err
	}
	resp, err := http.Post("http://"+address+"/by-hand", "application/json", bytes.NewReader(body))
	if err != nil {
		return reply, err
	}
	defer resp.Body.Close()
	if resp.StatusCode >= http.StatusInternalServerError {
		return reply, fmt.Errorf("status %s", resp.Status)
	}
	return reply, json.NewDecoder(resp.Body).Decode(&reply)
}

// there and back is a game without an end: knights go out and home again.
var there = []string{"Nf3", "Nf6", "Ng1", "Ng8"}

// shuttle is a feed of two games that go on by a ply now and then, as they are asked.
type shuttle struct {
	url string

	mu       sync.Mutex // protects following
	open     chan struct{}
	asked    int
	plies    [2]int
	released bool
}

func newShuttle(t *testing.T) *shuttle {
	s := &shuttle{open: make(chan struct{})}
	server := httptest.NewServer(s)
	t.Cleanup(server.Close)
	s.url = server.URL + "/games.pgn"
	return s
}

// hold lets the feed answer nothing until release.
func (s *shuttle) hold() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.released {
		s.open, s.released = make(chan struct{}), false
	}
}

func (s *shuttle) release() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.released {
		close(s.open)
		s.released = true
	}
}

func (s *shuttle) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	open := s.open
	s.mu.Unlock()
	select {
	case <-open:
	case <-r.Context().Done():
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.plies[s.asked%2]++
	s.asked++
	var games []relaytest.Game
	for i, n := range s.plies {
		g := relaytest.Game{White: fmt.Sprintf("White%d, W", i), Control: "600+5"}
		for ply := range n {
			g.Moves += there[ply%len(there)] + " "
			g.Clocks = append(g.Clocks, fmt.Sprintf("0:09:%02d", 59-ply%60))
		}
		games = append(games, g)
	}
	io.WriteString(w, relaytest.Packet(games...))
}
