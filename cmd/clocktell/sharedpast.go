package main

import (
	"cmp"
	"context"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"time"

	"clocktell/relay"
	"clocktell/relay/bus"
	"clocktell/relay/config"
	"clocktell/relay/journal"
)

// sharedPast is what has happened of a show that is shared, as the bus holds it or the journal.
type sharedPast struct {
	begin  bus.Beginning
	events []relay.Event
	was    string // the file of the journal that holds all of it already; "" none
	epoch  string // of that file
}

// past finds out what the show is that this process serves, and begins it on the bus if it is
// not there. What the bus holds counts, unless the journal has more: as after a time without
// the bus, or when that has lost it.
func (s *sharing) past(ctx context.Context, c config.Config, begin bus.Beginning, now time.Time) (sharedPast, error) {
	p := sharedPast{begin: begin}
	led, err := s.read(ctx, &p)
	if err != nil {
		return p, err
	}
	there, found := s.bus.Beginning()
	switch {
	case led && (!c.Bus.Pair || s.bus.Alone()):
		return p, bus.ErrLed
	case led && there.Plan != begin.Plan:
		return p, errOtherPlan
	case led:
		p.begin = there
		return p, nil
	}
	recorded, err := s.recorded(ctx, c.Journal, now)
	if err != nil {
		return p, err
	}
	latest := s.bus.Latest()
	if found && !s.bus.Whole() {
		s.options.Log.Error("the show on the bus was begun and never came to its present: what the journal has counts", "events", len(p.events))
		found, latest, p.events = false, time.Time{}, nil
		s.retake(nil)
	}
	if last := recorded.last(); last.After(latest) {
		p.events, p.was, latest = recorded.events, recorded.was, last
		s.retake(p.events)
	} else if found && there.Plan == begin.Plan && now.Sub(latest) < c.Journal.ResumeWithin.Duration {
		p.begin = there
		return p, nil
	}
	if p.was == "" && recorded.epoch == there.Epoch {
		p.was = recorded.was // of the same show, under another plan
	}
	if now.Sub(latest) >= c.Journal.ResumeWithin.Duration {
		p.events, p.was = nil, ""
		s.retake(nil)
	}
	if len(p.events) > 0 {
		p.begin.Began = p.events[0].When()
	}
	return p, s.bus.Begin(ctx, p.begin, p.events)
}

// read reads what the bus holds of the show, and reports whether a process leads it.
func (s *sharing) read(ctx context.Context, p *sharedPast) (led bool, err error) {
	if _, found := s.bus.Beginning(); !found {
		return false, nil
	}
	take := func(e relay.Event) { p.events = append(p.events, e) }
	if err := s.bus.Past(ctx, take); err != nil {
		return false, err
	}
	return s.bus.Led(ctx, take)
}

// retake follows the events of another show than those taken so far.
func (s *sharing) retake(events []relay.Event) {
	clear(s.contents)
	for _, e := range events {
		if packet, ok := e.(relay.PacketRead); ok {
			s.take(packet, true) // they fitted when they were read
		}
	}
	s.deposed()
}

// recorded returns what the newest show of the journal holds, nothing if it is too old.
func (s *sharing) recorded(ctx context.Context, c config.Journal, now time.Time) (p sharedPast, err error) {
	if c.Dir == "" {
		return p, nil
	}
	recording, err := journal.Read(ctx, c.Dir)
	if errors.Is(err, journal.ErrNoShow) || errors.Is(err, fs.ErrNotExist) {
		return p, nil
	}
	if err != nil {
		s.options.Log.Error("the newest journal cannot be read, and is left as it is: what the bus holds counts", "err", err)
		return p, nil
	}
	defer func() { err = errors.Join(err, recording.Close()) }()
	if now.Sub(recording.Last) >= c.ResumeWithin.Duration {
		return p, nil
	}
	p.was, p.epoch = recording.File, recording.Epoch
	for event, err := range make(intakes).events(recording.Records()) {
		if err == nil {
			p.events = append(p.events, event)
		} else if !errors.Is(err, errMisfit) {
			return p, err
		}
	}
	return p, nil
}

func (p sharedPast) last() time.Time {
	if len(p.events) == 0 {
		return time.Time{}
	}
	return p.events[len(p.events)-1].When()
}

// fold returns the show that all of it makes.
func (p sharedPast) fold(plan relay.Plan, now time.Time) restored {
	r := restored{past: relay.NewHistory(), show: relay.NewShow(plan, cmp.Or(p.begin.Began, now))}
	for _, e := range p.events {
		if e.When().Before(now.Add(-relay.HoldMost)) {
			r.show = r.show.After(e)
		} else {
			r.show = r.past.After(r.show, e)
		}
		r.records++
	}
	return r
}

// sharedPlan returns the plan of the show on the bus.
func sharedPlan(begin bus.Beginning) (plan relay.Plan, err error) {
	if err = json.Unmarshal([]byte(begin.Plan), &plan); err != nil {
		err = fmt.Errorf("the plan of the show on the bus: %w", err)
	}
	return plan, err
}

// newEpoch names one beginning of a show.
func newEpoch() string { return rand.Text()[:12] }
