package main

import (
	"fmt"
	"sync"
	"sync/atomic"
)

// temper is how a page behaves.
type temper int

// The tempers.
const (
	healthy      temper = iota
	reconnecting        // leaves and comes back at random, with good-bye and without
	slow                // takes a few bytes at a time
	stalled             // takes nothing after its welcome, and goes on to send
	hostile             // sends what no page may
	tempers             // how many there are
)

var temperNames = [tempers]string{"healthy", "reconnecting", "slow", "stalled", "hostile"}

func (t temper) String() string { return temperNames[t] }

// counts is what pages of one kind and temper did. All may use it at the same time.
type counts struct {
	pages                                           int // static
	open                                            atomic.Int64
	came, left, lost, refused, frames, bytes, moved atomic.Uint64 // moved: welcomed at another place than before
	wire                                            atomic.Uint64 // bytes as they go over a network, see onWire
	boards, boardBytes, boardWire, pongs            atomic.Uint64 // boards are those that came after the first
	breaches                                        [breaches]atomic.Uint64
}

func (c *counts) wrong() (n uint64) {
	for i := range c.breaches {
		n += c.breaches[i].Load()
	}
	return n
}

// toldMost is how many breaches are printed one by one.
const toldMost = 20

// tally counts everything, by kind of page and temper.
type tally struct {
	byKind map[string]*[tempers]counts // static after construction
	judged atomic.Int64                // pages, at the end
	race   race
	behind histogram // edges' clocks, where pages saw it

	mu   sync.Mutex // protects following
	told []told
	now  *lateness // of the minute
	all  *lateness
}

func newTally(kinds []string) *tally {
	t := &tally{byKind: make(map[string]*[tempers]counts), now: new(lateness), all: new(lateness)}
	for _, kind := range kinds {
		t.byKind[kind] = new([tempers]counts)
	}
	return t
}

func (t *tally) of(kind string, temper temper) *counts { return &t.byKind[kind][temper] }

// breach counts one, and keeps the first few.
func (t *tally) breach(c *counts, b breach, page, format string, args ...any) {
	c.breaches[b].Add(1)
	t.mu.Lock()
	defer t.mu.Unlock()
	if len(t.told) < toldMost {
		t.told = append(t.told, told{b, page, fmt.Sprintf(format, args...)})
	}
}

// lateness returns where to count now.
func (t *tally) lateness() *lateness {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.now
}

// turn begins another minute and returns the last one.
func (t *tally) turn() *lateness {
	t.mu.Lock()
	defer t.mu.Unlock()
	last := t.now
	t.now = new(lateness)
	t.all.packet.merge(&last.packet)
	t.all.move.merge(&last.move)
	t.all.atRelay.merge(&last.atRelay)
	t.all.atEdge.merge(&last.atEdge)
	return last
}

// sum adds up one figure of all pages.
func (t *tally) sum(of func(*counts) uint64) (n uint64) {
	for _, each := range t.byKind {
		for i := range each {
			n += of(&each[i])
		}
	}
	return n
}

func (t *tally) wrong() uint64 { return t.sum((*counts).wrong) }
