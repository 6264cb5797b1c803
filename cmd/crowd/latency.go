package main

import (
	"sync/atomic"
	"time"
)

// What a histogram tells apart: milliseconds up to slowest.
const (
	slowest = 20 * time.Second
	pieces  = int(slowest / time.Millisecond)
)

// histogram counts how long things took. The zero value is empty.
type histogram struct {
	counts [pieces + 1]atomic.Uint32
	total  atomic.Uint64
	most   atomic.Int64 // ms
}

func (h *histogram) add(took time.Duration) {
	ms := max(0, took.Milliseconds())
	h.counts[min(ms, int64(pieces))].Add(1)
	h.total.Add(1)
	for was := h.most.Load(); ms > was && !h.most.CompareAndSwap(was, ms); was = h.most.Load() {
	}
}

// within returns in how long so many of a hundred were done, to the millisecond.
func (h *histogram) within(percent float64) time.Duration {
	rank := uint64(float64(h.total.Load()) * percent / 100)
	var sum uint64
	for ms := range h.counts {
		if sum += uint64(h.counts[ms].Load()); sum > rank {
			return time.Duration(ms) * time.Millisecond
		}
	}
	return h.max()
}

func (h *histogram) max() time.Duration { return time.Duration(h.most.Load()) * time.Millisecond }

// merge adds what another has counted.
func (h *histogram) merge(other *histogram) {
	for ms := range other.counts {
		h.counts[ms].Add(other.counts[ms].Load())
	}
	h.total.Add(other.total.Load())
	h.most.Store(max(h.most.Load(), other.most.Load()))
}

// lateness is how late frames were in one piece of time.
type lateness struct {
	packet          histogram // from the relay's receipt of a packet to the page that is not held back
	atRelay, atEdge histogram // of those, at pages of the relay and of edges
	move            histogram // from a move at the arena, the wait for the next poll included
}
