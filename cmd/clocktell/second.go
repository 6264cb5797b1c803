package main

import (
	"context"
	"fmt"
	"log/slog"
	"sync"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/engine"
	"clocktell/relay/metrics"
)

// seconder has an engine give second opinions of what is on the boards. It stands beside
// the loop: moves are on the air before it has heard of them, and its answers go the way
// of all events.
type seconder struct {
	*engine.Engine
	second     bool // its opinions are compared with those of the first
	command    string
	live, deep time.Duration // for a position; deep 0: none is searched again
	time       relay.Timebase
	log        *slog.Logger
	events     chan<- relay.Event

	mu   sync.Mutex           // protects following
	told map[string]time.Time // outcomes, and when the show was told

	last engine.State // that the show was told of; only run has it
}

// newSeconders returns the engines that the configuration sets: none, one, or the one
// and another to compare it with.
func newSeconders(c config.Config, tb relay.Timebase, events chan<- relay.Event, log *slog.Logger) []*seconder {
	var out []*seconder
	for i, e := range []config.Engine{c.Engine, c.Second} {
		if e.Command == "" {
			continue
		}
		s := &seconder{
			second: i > 0, command: e.Command, live: e.Movetime.Duration, deep: e.DeepMovetime.Duration, time: tb, events: events,
			told: make(map[string]time.Time), log: log.With("engine", e.Command),
		}
		options := engineOptions(e)
		options.Tell = s.tell
		s.Engine = engine.New(options)
		out = append(out, s)
	}
	return out
}

func engineOptions(e config.Engine) engine.Options {
	return engine.Options{
		Command: e.Command, Args: e.Args, Settings: e.Options, Threads: e.Threads, Memory: e.Memory, Nice: e.Nice, Lines: e.Lines,
	}
}

// stateEvery is how often the show is told what the engine is busy with. Whether it
// works at all is told at once.
const stateEvery = 5 * time.Second

// run has the engine asked for what the show lacks, until ctx ends.
func (s *seconder) run(ctx context.Context, r *relay.Relay) error {
	changes := r.Subscribe()
	defer changes.Close()
	ticker := time.NewTicker(stateEvery)
	defer ticker.Stop()
	s.send(ctx, s.state(s.State()))
	for {
		select {
		case <-changes.C:
			s.ask(ctx, r.Show())
		case <-s.Changed():
			s.tellState(ctx, false)
		case <-ticker.C:
			s.tellState(ctx, true)
			s.ask(ctx, r.Show()) // what was told and has been lost since
		case <-ctx.Done():
			return nil
		}
	}
}

func (s *seconder) send(ctx context.Context, e relay.Event) {
	select {
	case s.events <- e:
	case <-ctx.Done():
	}
}

// tellState tells the show how the engine is: what matters at once, the rest now and then.
func (s *seconder) tellState(ctx context.Context, all bool) {
	now := s.State()
	was := s.state(s.last).Engine
	is := s.state(now).Engine
	grave := was.Name != is.Name || was.Fault != is.Fault || !was.Since.Equal(is.Since) || was.Last == "" && is.Last != ""
	if !grave && !(all && was != is) {
		return
	}
	if now.Fault != "" && now.Fault != s.last.Fault {
		s.log.Warn("the engine has a fault and is started again", "reason", now.Reason, "err", now.Fault)
	}
	s.last = now
	s.send(ctx, s.state(now))
}

// state says how the engine is in the words of the show.
func (s *seconder) state(is engine.State) relay.EngineChanged {
	e := relay.Engine{
		Name: is.Name, Fault: is.Fault, Restarts: int(is.Restarts), Last: string(is.Reason), Waiting: is.Waiting, Board: is.Board,
	}
	if e.Name == "" {
		e.Name = s.command
	}
	if !is.Since.IsZero() {
		e.Since = s.time.Show(is.Since)
	}
	return relay.EngineChanged{At: s.time.Now(), Second: s.second, Engine: e}
}

// ask has the engine search what the show lacks, and tells what it knows already.
func (s *seconder) ask(ctx context.Context, show *relay.Show) {
	for _, a := range s.Want(s.wishes(show)) {
		if s.fresh(a) {
			s.send(ctx, s.answer(a))
		}
	}
}

// tell tells the show what the engine has found. Of what is past only the outcome: nobody
// waits for it, and every answer is journalled.
func (s *seconder) tell(ctx context.Context, a engine.Answer) {
	if !a.Opinion.Final && a.Wish.Class >= engine.Past {
		return
	}
	if a.Opinion.Final {
		s.fresh(a)
	}
	s.send(ctx, s.answer(a))
}

func (s *seconder) answer(a engine.Answer) relay.EngineAnswered {
	return relay.EngineAnswered{
		At: s.time.Now(), Board: a.Wish.Board, Game: a.Wish.Game, Second: s.second,
		Answers: []relay.Judged{{Ply: a.Wish.Ply, Place: a.Place, Opinion: a.Opinion}},
	}
}

// An outcome is told again if the show lacks it so long after it was told. Until then it
// is on its way.
const (
	toldAgain = 2 * time.Second
	toldMost  = 10_000 // remembered
)

// fresh notes an outcome that the show is told, and reports whether it has not just been.
func (s *seconder) fresh(a engine.Answer) bool {
	key := fmt.Sprintf("%d %d %d %x %v", a.Wish.Board, a.Wish.Game, a.Wish.Ply, a.Wish.Key, a.Opinion.Given)
	s.mu.Lock()
	defer s.mu.Unlock()
	if at, told := s.told[key]; told && time.Since(at) < toldAgain {
		return false
	}
	if len(s.told) >= toldMost {
		clear(s.told)
	}
	s.told[key] = time.Now()
	return true
}

// figures returns what of the engine is counted.
func (s *seconder) figures() metrics.EngineFigures {
	is := s.State()
	f := metrics.EngineFigures{
		Searches: is.Searches, Restarts: is.Restarts, Queue: is.Waiting, Running: !is.Since.IsZero(), Faults: make(map[string]uint64),
	}
	for _, reason := range engine.Reasons {
		f.Faults[string(reason)] = is.Faults[reason]
	}
	return f
}
