package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"net/http"
	"slices"
	"sync"
	"testing"
	"time"

	"clocktell/overlay/wire"
)

// entering enters moves on a board led by hand and notes at the table, one after the other,
// each at any of the processes, and again under its ID at any other until it is acknowledged.
type entering struct {
	party  *party
	client http.Client
	stop   chan struct{} // closed: no more entries
	over   chan struct{} // closed: those that were begun are given up
	wg     sync.WaitGroup

	mu          sync.Mutex // protects following
	random      *rand.Rand
	moves       []string // acknowledged
	hands       int      // entries by hand that were: the moves, and the names after them
	notes       int      // acknowledged
	again       int      // attempts that were not acknowledged
	refused     []string
	notEntering map[string]bool // members that nobody enters anything at
}

// enterMost is how long a person waits for the answer to an entry before sending it again.
const enterMost = 1500 * time.Millisecond

// againAfter is how long they wait before that, when they are told that it was not done.
const againAfter = 100 * time.Millisecond

// enter begins to enter; the end of it waits until the last entries have been acknowledged.
func (p *party) enter() {
	p.entering = startEntering(p)
	p.t.Cleanup(func() {
		close(p.entering.over)
		p.entering.wg.Wait()
	})
}

func startEntering(p *party) *entering {
	e := &entering{party: p, client: http.Client{Timeout: enterMost, Transport: &http.Transport{DisableKeepAlives: true}}, stop: make(chan struct{}), over: make(chan struct{}), random: rand.New(rand.NewPCG(3, 5))}
	e.wg.Go(func() {
		e.each(func(n int) (string, any) {
			return "/by-hand", handEntry(n)
		}, func(n int) {
			if e.hands = n + 1; n < handMoves {
				e.moves = append(e.moves, there[n%len(there)])
			}
		})
	})
	e.wg.Go(func() {
		e.each(func(n int) (string, any) {
			return "/at-panel", wire.PanelAct{ID: fmt.Sprint("note-", n), Who: "Ada", Act: "note", Text: fmt.Sprint("note ", n)}
		}, func(n int) { e.notes = n + 1 })
	})
	return e
}

// handMoves is how many moves are entered; then names are: nobody leads a game of a thousand
// moves by hand, and each costs as much as there are.
const handMoves = 80

func handEntry(n int) wire.Entry {
	entry := wire.Entry{ID: fmt.Sprint("hand-", n), Board: handBoard, Act: "move", Ply: n + 1, SAN: there[n%len(there)]}
	if n >= handMoves {
		entry.Act, entry.Ply, entry.SAN, entry.Side, entry.Text = "name", 0, "", "white", fmt.Sprint("Name ", n)
	}
	return entry
}

func (e *entering) end() {
	close(e.stop)
	e.wg.Wait()
}

func (e *entering) each(entry func(n int) (path string, body any), done func(n int)) {
	for n := 0; ; {
		path, body := entry(n)
		if e.try(path, body) {
			e.mu.Lock()
			done(n)
			e.mu.Unlock()
			n++
		} else {
			e.mu.Lock()
			e.again++
			e.mu.Unlock()
			select {
			case <-e.over:
				return
			default:
				continue // what was begun is brought to its end
			}
		}
		select {
		case <-e.over:
			return
		case <-e.stop:
			return
		case <-time.After(e.pause()):
		}
	}
}

// pause is how long a person does nothing.
func (e *entering) pause() time.Duration {
	e.mu.Lock()
	defer e.mu.Unlock()
	return 50*time.Millisecond + time.Duration(e.random.Int64N(int64(400*time.Millisecond)))
}

// somewhere is the address of one of the processes.
func (e *entering) somewhere() string {
	e.mu.Lock()
	defer e.mu.Unlock()
	for {
		if m := e.party.members[e.random.IntN(len(e.party.members))]; !e.notEntering[m.name] {
			return m.address
		}
	}
}

// try sends an entry and reports whether it was acknowledged.
func (e *entering) try(path string, body any) bool {
	text, err := json.Marshal(body)
	if err != nil {
		panic(err)
	}
	resp, err := e.client.Post("http://"+e.somewhere()+path, "application/json", bytes.NewReader(text))
	if err != nil {
		<-time.After(againAfter)
		return false
	}
	defer resp.Body.Close()
	var reply wire.EntryReply
	if resp.StatusCode >= http.StatusInternalServerError || json.NewDecoder(resp.Body).Decode(&reply) != nil {
		<-time.After(againAfter)
		return false
	}
	if !reply.Done {
		e.mu.Lock()
		defer e.mu.Unlock()
		e.refused = append(e.refused, fmt.Sprintf("%s: %s", text, reply.Error))
	}
	return true
}

// acknowledged returns the moves acknowledged so far, and how many notes.
func (e *entering) acknowledged() ([]string, int) {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.moves[:len(e.moves):len(e.moves)], e.notes
}

// check reports entries that were refused.
func (e *entering) check(t *testing.T) {
	t.Helper()
	e.mu.Lock()
	defer e.mu.Unlock()
	for _, refused := range e.refused {
		t.Errorf("refused: %s", refused)
	}
}

// exact: a process shows what was acknowledged and nothing else; none of it twice.
func (e *entering) exact(t *testing.T, m *member) {
	t.Helper()
	moves, notes := e.acknowledged()
	if e.hands != len(moves) {
		t.Errorf("%d entries by hand of which only the moves are compared", e.hands)
	}
	if shown := m.panel.hand(); !slices.Equal(shown, moves) {
		t.Errorf("%s shows %d moves by hand, acknowledged were %d", m.name, len(shown), len(moves))
	}
	m.panel.sees(func() {
		if last := m.panel.table.Notes[len(m.panel.table.Notes)-1].Text; last != fmt.Sprint("note ", notes-1) {
			t.Errorf("the last of %d notes at %s is %s", notes, m.name, last)
		}
	})
}
