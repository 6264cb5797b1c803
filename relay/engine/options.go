package engine

import (
	"context"
	"math/rand/v2"
	"time"
)

// Options say which engine there is and how it is kept.
type Options struct {
	Command  string // a path, or a name on the PATH
	Args     []string
	Settings map[string]string // UCI options by name; those of the fields below are not among them
	Threads  int               // 0: as the engine has it
	Memory   int               // of its hash, in MB; 0: as the engine has it
	Nice     int               // 0 to 19, the higher the more it gives way
	Lines    int               // searched at once; 0 and 1: one

	// Tell takes an answer. Until it returns, the engine is not heard.
	Tell func(context.Context, Answer)
	// Rand returns a number from 0 to 1 that spreads the waits between two starts; nil: as usual.
	Rand func() float64

	open   func(Options) (*conn, error) // nil: as a process
	limits limits
}

// limits are how long an engine may take. The zero value stands for usual.
type limits struct {
	start   time.Duration // from its start to uciok
	ready   time.Duration // from isready to readyok, its tables being filled
	overrun time.Duration // past the time for a search, before it is told to stop
	stop    time.Duration // from stop to bestmove
	end     time.Duration // from quit, or from the end of its output, to that of the process
	again   time.Duration // to the first start after a fault; it doubles
	most    time.Duration // ... up to this
	sound   time.Duration // a process that has lived so long begins anew with the waits
}

var usual = limits{
	start: 15 * time.Second, ready: 20 * time.Second, overrun: 2 * time.Second, stop: 3 * time.Second, end: 500 * time.Millisecond,
	again: time.Second, most: time.Minute, sound: time.Minute,
}

// How much is taken of what an engine says.
const (
	lineMost      = 16 << 10 // bytes of a line; what is longer is not held
	linesWaiting  = 256      // heard and not read yet; the engine waits beyond
	floodLines    = 10_000   // within a second; usual engines say some 150
	floodBytes    = 64 << 20 // within a second
	rubbishMost   = 1000     // lines of rubbish from one process
	emptyMost     = 3        // searches without a line, one after the other
	spoiltMost    = 3        // faults within the search of one position, which is then left alone
	offeredMost   = 1000     // UCI options remembered
	nameMost      = 80       // characters of an engine's name
	LinesMost     = 8        // lines searched at once
	movesMost     = 32       // plies of a line
	depthMost     = 1000     // plies
	centipawnMost = 1_000_000
	mateMost      = 1000 // moves
)

// When a search that goes on is told of: first at usefulDepth, or after firstAfter with
// what there is, then at these times.
const usefulDepth = 8

var (
	firstAfter = 300 * time.Millisecond
	toldAfter  = []time.Duration{time.Second, 3 * time.Second}
)

// beat is how often a search is looked at.
const beat = 100 * time.Millisecond

func (o Options) filled() Options {
	o.Lines = min(max(o.Lines, 1), LinesMost)
	if o.open == nil {
		o.open = openProcess
	}
	if o.limits == (limits{}) {
		o.limits = usual
	}
	if o.Rand == nil {
		o.Rand = rand.Float64
	}
	if o.Tell == nil {
		o.Tell = func(context.Context, Answer) {}
	}
	return o
}

// jitter is how far the wait before a start is spread either way.
const jitter = 0.2

// wait returns how long to wait before the n-th start in a row, n from 1.
func (o *Options) wait(n int) time.Duration {
	d := o.limits.again
	for i := 1; i < n && d < o.limits.most; i++ {
		d *= 2
	}
	spread := 1 - jitter + 2*jitter*o.Rand()
	return time.Duration(float64(min(d, o.limits.most)) * spread)
}
