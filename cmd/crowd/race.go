package main

import (
	"slices"
	"sync"
	"time"
)

// race times when the same revision of a board came first to pages of the relay, and first to
// pages of edges: by one clock, whatever either says of its own.
type race struct {
	mu    sync.Mutex // protects following
	came  map[revision][2]time.Time
	later []time.Duration // at the edge
}

type revision struct {
	board int
	rev   uint64
}

// see takes a revision that has come to a page.
func (r *race) see(board int, rev uint64, edge bool, now time.Time) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.came == nil {
		r.came = make(map[revision][2]time.Time)
	}
	key, side := revision{board, rev}, 0
	if edge {
		side = 1
	}
	both := r.came[key]
	if !both[side].IsZero() {
		return
	}
	both[side] = now
	r.came[key] = both
	if !both[0].IsZero() && !both[1].IsZero() {
		r.later = append(r.later, both[1].Sub(both[0]))
	}
}

// within returns by how much later so many of a hundred were at the edge, less than 0 for earlier.
func (r *race) within(percent int) time.Duration {
	r.mu.Lock()
	defer r.mu.Unlock()
	if len(r.later) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(r.later))
	return sorted[min(len(sorted)-1, len(sorted)*percent/100)]
}
