package main

import (
	"context"
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"
)

// restAfter is how long a finished game stands before its table begins another.
const restAfter = 10 * time.Second

// arena is where the games are played. It serves them as feeds, and knows the truth that
// pages are held to.
type arena struct {
	feeds int
	now   func() time.Time

	mu     sync.RWMutex // protects following
	rng    *rand.Rand
	tables [][]*game // all rounds of each table, the newest last; table n at index n-1
	played int
}

// newArena sets up tables for so many feeds, spread over them evenly.
func newArena(feeds, tables int, seed uint64, now func() time.Time) *arena {
	a := &arena{feeds: feeds, now: now, rng: rand.New(rand.NewPCG(seed, seed)), tables: make([][]*game, tables)}
	for i := range a.tables {
		a.begin(i)
	}
	return a
}

func (a *arena) begin(i int) {
	event := fmt.Sprintf("Velmarin Hall %d", i%a.feeds+1)
	a.tables[i] = append(a.tables[i], newGame(event, i+1, len(a.tables[i])+1, a.rng, a.now()))
}

func (a *arena) newest(i int) *game { return a.tables[i][len(a.tables[i])-1] }

// prepare plays so many plies at every table at once, some ten seconds each, and ends the
// game at every other one; none are as if nothing were asked for.
func (a *arena) prepare(plies int) {
	if plies == 0 {
		return
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	for i := range a.tables {
		g := a.newest(i)
		for n := 0; n < plies && !g.over(); n++ {
			g.turned = a.now().Add(-time.Duration(5+a.rng.IntN(10)) * time.Second)
			g.play(a.rng, a.now())
		}
		if i%2 == 1 && !g.over() {
			g.end("1/2-1/2", a.now())
		}
	}
}

// run plays a move somewhere at a steady pace until ctx ends.
func (a *arena) run(ctx context.Context, perSecond float64) {
	if perSecond <= 0 {
		<-ctx.Done()
		return
	}
	ticker := time.NewTicker(time.Duration(float64(time.Second) / perSecond))
	defer ticker.Stop()
	for {
		select {
		case <-ticker.C:
			a.move()
		case <-ctx.Done():
			return
		}
	}
}

// move plays at the first table that is on, counted from one drawn at random.
func (a *arena) move() {
	a.mu.Lock()
	defer a.mu.Unlock()
	from := a.rng.IntN(len(a.tables))
	for n := range a.tables {
		i := (from + n) % len(a.tables)
		g := a.newest(i)
		if g.over() && a.now().Sub(g.ended) >= restAfter {
			a.begin(i)
			g = a.newest(i)
		}
		if !g.over() {
			g.play(a.rng, a.now())
			a.played++
			return
		}
	}
}

// ServeHTTP answers with the games of one feed, /1.pgn and so on. Every other feed knows
// conditional requests, as some arenas do.
func (a *arena) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	feed, err := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(r.URL.Path, "/"), ".pgn"))
	if err != nil || feed < 1 || feed > a.feeds {
		http.NotFound(w, r)
		return
	}
	text := a.text(feed)
	if feed%2 == 0 {
		h := fnv.New64a()
		_, _ = h.Write(text) // never fails
		tag := fmt.Sprintf(`"%x"`, h.Sum64())
		w.Header().Set("ETag", tag)
		if r.Header.Get("If-None-Match") == tag {
			w.WriteHeader(http.StatusNotModified)
			return
		}
	}
	w.Header().Set("Content-Type", "application/x-chess-pgn; charset=utf-8")
	_, _ = w.Write(text) // who has gone asks again
}

func (a *arena) text(feed int) []byte {
	a.mu.RLock()
	defer a.mu.RUnlock()
	var b []byte
	for i := feed - 1; i < len(a.tables); i += a.feeds {
		b = a.newest(i).appendPGN(b)
	}
	return b
}

// plyAt returns a ply of a table's round, from index 0.
func (a *arena) plyAt(table, round, index int) (ply, bool) {
	a.mu.RLock()
	defer a.mu.RUnlock()
	if table < 1 || table > len(a.tables) || round < 1 || round > len(a.tables[table-1]) {
		return ply{}, false
	}
	plies := a.tables[table-1][round-1].plies
	if index < 0 || index >= len(plies) {
		return ply{}, false
	}
	return plies[index], true
}

// stands returns how the newest game of a table stands.
func (a *arena) stands(table int) (round, plies int, result string) {
	a.mu.RLock()
	defer a.mu.RUnlock()
	if table < 1 || table > len(a.tables) {
		return 0, 0, ""
	}
	g := a.newest(table - 1)
	return g.round, len(g.plies), g.result
}

// moves returns how many moves have been played in all.
func (a *arena) moves() int {
	a.mu.RLock()
	defer a.mu.RUnlock()
	return a.played
}
