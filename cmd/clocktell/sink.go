package main

import (
	"context"
	"log/slog"
	"time"

	"clocktell/relay"
	"clocktell/relay/feed"
)

// sink turns what a source hears into events for the loop.
type sink struct {
	ctx    context.Context
	feed   string
	intake *relay.Intake
	events chan<- relay.Event
	polled func(feed string, took time.Duration) // told of every answer and fault
	log    *slog.Logger
	failed bool // the last thing heard was a fault: told once, not every second
	inPart bool // so was a fault of a part, since something new came
}

var _ feed.Sink = (*sink)(nil)

// Answered takes an answer.
func (s *sink) Answered(a feed.Answer) {
	s.polled(s.feed, a.Took)
	if s.failed {
		s.failed = false
		s.log.Info("feed answers again")
	}
	if !a.New {
		s.send(relay.FeedAnswered{At: a.At, Feed: s.feed})
		return
	}
	s.inPart = false
	s.send(s.intake.Read(a.At, a.Body))
}

// Failed takes a fault.
func (s *sink) Failed(f feed.Fault) {
	s.polled(s.feed, f.Took)
	told := &s.failed
	if f.Partial { // the rest of the source answers beside it
		told = &s.inPart
	}
	if !*told {
		*told = true
		s.log.Warn("feed fault", "reason", f.Reason, "err", f.Err)
	}
	s.send(relay.FeedFailed{At: f.At, Feed: s.feed, Reason: string(f.Reason), Text: f.Err.Error()})
}

func (s *sink) send(event relay.Event) {
	select {
	case s.events <- event:
	case <-s.ctx.Done():
	}
}
