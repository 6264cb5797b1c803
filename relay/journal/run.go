package journal

import (
	"context"
	"fmt"
	"path/filepath"
	"time"

	"clocktell/relay"
)

// Run takes events from in, writes them down and sends them to out, in order,
// until ctx ends or in is closed. The error says what could not be written in
// the end; while Run runs it is told by relay.JournalState.
func (j *Journal) Run(ctx context.Context, in <-chan relay.Event, out chan<- relay.Event) error {
	tick := time.NewTicker(flushAfter)
	defer tick.Stop()
	c := channels{in: in, out: out, done: ctx.Done(), sent: j.o.Sent}
	for ctx.Err() == nil {
		said := j.health
		select {
		case event, open := <-in:
			if !open {
				return j.flush()
			}
			j.take(c, c.batch(event))
		case <-tick.C:
			j.commit(nil)
		case <-ctx.Done():
		}
		if j.health != said {
			c.send(j.state())
		}
		j.keepHouse()
	}
	return j.flush()
}

// channels are the ways in and out of Run.
type channels struct {
	in   <-chan relay.Event
	out  chan<- relay.Event
	done <-chan struct{}
	sent func(relay.Event)
}

// batch returns an event and those that wait behind it.
func (c channels) batch(event relay.Event) []relay.Event {
	events := []relay.Event{event}
	for len(events) < batchMost {
		select {
		case event, open := <-c.in:
			if !open {
				return events
			}
			events = append(events, event)
		default:
			return events
		}
	}
	return events
}

// send sends events on. When Run is to end it may leave some out: they are
// written, and part of the show that comes back.
func (c channels) send(events ...relay.Event) {
	for _, event := range events {
		select {
		case c.out <- event:
			c.sent(event)
		case <-c.done:
			return
		}
	}
}

// take writes a batch down and sends it on. What does not wait for the disk and
// stands before all that does goes on at once.
func (j *Journal) take(c channels, batch []relay.Event) {
	atOnce := 0
	for atOnce < len(batch) && j.keepAnswer(batch[atOnce]) {
		atOnce++
	}
	c.send(batch[:atOnce]...)
	if atOnce == len(batch) && j.run.len() < answersMost {
		return
	}
	rest := batch[atOnce:]
	j.commit(j.rows(rest, false))
	c.send(rest...)
}

// keepAnswer keeps an event that does not wait for the disk; false if it has to.
func (j *Journal) keepAnswer(event relay.Event) bool {
	if e, ok := event.(relay.FeedAnswered); ok {
		j.run.add(e)
		return true
	}
	return !isWritten(event)
}

// rows encodes events, each run of answers as one row.
func (j *Journal) rows(events []relay.Event, key bool) []row {
	var rows []row
	var run answers
	for _, event := range events {
		if e, ok := event.(relay.FeedAnswered); ok {
			if run.add(e); run.len() == answersMost {
				rows, run = append(rows, run.row()), answers{}
			}
			continue
		}
		r, written := j.pack.rowOf(event)
		if !written {
			continue
		}
		if run.len() > 0 {
			rows, run = append(rows, run.row()), answers{}
		}
		rows = append(rows, r)
	}
	if run.len() > 0 {
		rows = append(rows, run.row())
	}
	for i := range rows {
		rows[i].key = key
	}
	return rows
}

// health is how the writing goes.
type health int

const (
	well    health = iota
	refused        // the disk takes nothing; memory does
	losing         // memory is full, too
)

// state says how the writing goes.
func (j *Journal) state() relay.JournalState {
	var s relay.JournalState
	name := filepath.Base(j.path)
	switch j.health {
	case refused:
		s.Text = fmt.Sprintf("the journal %s cannot be written: %v; %s; the show goes on and is kept in memory until then", name, j.lastError(), j.advice())
	case losing:
		s.Text = fmt.Sprintf("the journal %s cannot be written: %v; %s; there is no room in memory for more: if the program stops now, what happened since is lost",
			name, j.lastError(), j.advice())
	}
	return s
}
