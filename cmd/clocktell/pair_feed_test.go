package main

import (
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"

	"clocktell/relay/relaytest"
)

// parade is a feed that goes on by a ply whenever it is asked: two games at a time, and two
// others when they have come to their end.
type parade struct {
	url string

	mu     sync.Mutex // protects following
	served int        // plies
	held   bool
}

// paradeLong is how many plies a game of the parade has.
const paradeLong = 120

func newParade(t *testing.T) *parade {
	p := &parade{}
	server := httptest.NewServer(p)
	t.Cleanup(server.Close)
	p.url = server.URL + "/games.pgn"
	return p
}

// hold lets the feed answer nothing any more.
func (p *parade) hold() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.held = true
}

// plies returns how many have been told.
func (p *parade) plies() int {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.served
}

func (p *parade) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	p.mu.Lock()
	held := p.held
	if !held {
		p.served++
	}
	n := p.served
	p.mu.Unlock()
	if held {
		<-r.Context().Done()
		return
	}
	io.WriteString(w, paradeAfter(n))
}

// paradeAfter is what the feed says after so many plies.
func paradeAfter(plies int) string {
	var games []relaytest.Game
	for round := 1; ; round++ {
		of := min(plies, 2*paradeLong)
		plies -= of
		for i, n := range []int{(of + 1) / 2, of / 2} {
			games = append(games, paradeGame(round, i, n))
		}
		if plies == 0 {
			return relaytest.Packet(games...)
		}
	}
}

func paradeGame(round, i, plies int) relaytest.Game {
	g := relaytest.Game{White: fmt.Sprintf("White%d-%d, W", round, i), Black: fmt.Sprintf("Black%d-%d, B", round, i), Round: fmt.Sprint(round), Control: "600+5"}
	var moves strings.Builder
	for ply := range plies {
		moves.WriteString(there[ply%len(there)] + " ")
		g.Clocks = append(g.Clocks, fmt.Sprintf("0:09:%02d", 59-ply%60))
	}
	g.Moves = moves.String()
	if plies == paradeLong {
		g.Result = "1/2-1/2"
	}
	return g
}
