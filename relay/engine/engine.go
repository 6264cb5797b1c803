package engine

import (
	"errors"
	"maps"
	"sync"
	"time"

	"clocktell/relay/opinion"
)

// Engine is a UCI engine that is kept at work. Its methods may be called from anywhere.
type Engine struct {
	Options
	wake    chan struct{} // holds one: something else is wanted now
	changed chan struct{} // holds one: its state is another

	mu     sync.Mutex // protects following
	queue  queue
	store  store
	spoilt map[uint64]int // faults during the search of each position
	state  State
}

// State is how an engine is.
type State struct {
	Name     string    // by which it calls itself; "" it has not said yet
	Since    time.Time // it has been ready since then; zero: it is not
	Reason   Reason    // of its last fault; "" there was none
	Fault    string    // what went wrong when it ended last; "" it works
	Restarts uint64
	Searches uint64            // ended
	Faults   map[Reason]uint64 // counted since the start
	Waiting  int               // positions
	Board    int               // whose position is searched; 0: none
}

// New returns an engine that does nothing until it runs.
func New(o Options) *Engine {
	return &Engine{
		Options: o.filled(), wake: make(chan struct{}, 1), changed: make(chan struct{}, 1), store: newStore(),
		spoilt: make(map[uint64]int), state: State{Faults: make(map[Reason]uint64)}, queue: newQueue(),
	}
}

// Want says which positions are wanted now, in place of those wanted before. Those that
// are known already it answers at once.
func (e *Engine) Want(wishes []Wish) []Answer {
	e.mu.Lock()
	defer e.mu.Unlock()
	var known []Answer
	var open []Wish
	for _, w := range wishes {
		if o, ok := e.store.find(w.Key, w.Limit); ok {
			line := w.Line()
			end := line.End()
			known = append(known, Answer{Wish: w, Place: end.Hash(), Opinion: o})
		} else if e.spoilt[w.Key] < spoiltMost {
			open = append(open, w)
		}
	}
	e.queue.set(open, time.Now())
	e.state.Waiting = len(open)
	signal(e.wake)
	return known
}

// Changed signals that State is worth another look. One signal waits at most.
func (e *Engine) Changed() <-chan struct{} { return e.changed }

// State returns how the engine is.
func (e *Engine) State() State {
	e.mu.Lock()
	defer e.mu.Unlock()
	s := e.state
	s.Faults = maps.Clone(s.Faults)
	return s
}

func signal(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

// change changes the state.
func (e *Engine) change(do func(*State)) {
	e.mu.Lock()
	do(&e.state)
	e.mu.Unlock()
	signal(e.changed)
}

// counted counts a fault that the process outlives.
func (e *Engine) counted(reason Reason) {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.state.Faults[reason]++
	if e.state.Reason != reason {
		e.state.Reason = reason
		signal(e.changed)
	}
}

// failed notes the end of a process.
func (e *Engine) failed(err error) {
	e.change(func(s *State) {
		s.Since, s.Board, s.Fault = time.Time{}, 0, err.Error()
		var fault *Fault
		if errors.As(err, &fault) {
			s.Reason = fault.Reason
			s.Faults[fault.Reason]++
		}
	})
}

func (e *Engine) restarting() { e.change(func(s *State) { s.Restarts++ }) }

func (e *Engine) running(name string) {
	e.change(func(s *State) { s.Name, s.Since, s.Fault = name, time.Now(), "" })
}

// pick returns the wish to be searched next.
func (e *Engine) pick() (Wish, bool) {
	e.mu.Lock()
	defer e.mu.Unlock()
	w, ok := e.queue.begin(time.Now())
	e.state.Board = w.Board
	signal(e.changed)
	return w, ok
}

// yields reports whether the search of a wish, going on for so long, is to be stopped.
func (e *Engine) yields(w Wish, ran time.Duration) bool {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.queue.yields(w, ran, time.Now())
}

// ended notes that the search of a wish is over.
func (e *Engine) ended(w Wish, err error) {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.queue.end(w, time.Now())
	e.state.Searches++
	e.state.Waiting, e.state.Board = len(e.queue.wishes), 0
	var fault *Fault
	if errors.As(err, &fault) {
		e.spoilLocked(w)
	}
}

// keep stores what a search has come to, and wishes for the same no more.
func (e *Engine) keep(w Wish, o opinion.Opinion) {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.store.put(w.Key, w.Limit, o)
	e.queue.drop(func(other Wish) bool { return other.Key == w.Key && w.Limit.reaches(other.Limit) })
}

func (e *Engine) spoil(w Wish) {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.spoilLocked(w)
}

// spoiltRemembered is of how many positions it is known that their search went wrong.
const spoiltRemembered = 1000

// spoilLocked notes that a search went wrong. A position that brings the engine down
// again and again is left alone.
func (e *Engine) spoilLocked(w Wish) {
	if len(e.spoilt) >= spoiltRemembered {
		clear(e.spoilt)
	}
	if e.spoilt[w.Key]++; e.spoilt[w.Key] >= spoiltMost {
		e.queue.drop(func(other Wish) bool { return other.Key == w.Key })
	}
}
