package main

import (
	"math/rand/v2"
	"sync/atomic"
)

// place is where pages may come: a relay, or an edge.
type place struct {
	address string
	edge    bool
	kills   atomic.Int64 // how often it was killed
	down    atomic.Bool  // it is killed, and not back yet
}

type places []*place

// first is where the nth page comes first: all places get as many.
func (ps places) first(n int) *place { return ps[n%len(ps)] }

// other is any other place than the one a page was at, if there is one.
func (ps places) other(than *place) *place {
	if len(ps) == 1 {
		return ps[0]
	}
	for {
		if p := ps[rand.IntN(len(ps))]; p != than {
			return p
		}
	}
}

// stay is a visit to a place as far as it matters when it ends.
type stay struct {
	place *place
	kills int64
	down  bool
}

func (p *place) stay() stay { return stay{place: p, kills: p.kills.Load(), down: p.down.Load()} }

// killed reports whether the place was killed at any time since the stay began.
func (s stay) killed() bool {
	return s.down || s.place.down.Load() || s.place.kills.Load() != s.kills
}
