package main

import (
	"cmp"
	"errors"
	"fmt"
	"iter"
	"runtime/debug"
	"time"

	"clocktell/relay"
	"clocktell/relay/journal"
)

// again returns a recorded event as it was: of a packet the journal keeps only what
// changed. What does not fit what came before is an error; the feed's next packet
// that is kept whole will fit again.
func (in intakes) again(e relay.Event) (relay.Event, error) {
	packet, ok := e.(relay.PacketRead)
	if !ok {
		return e, nil
	}
	event, err := in.of(packet.Feed).Again(packet)
	if err != nil {
		delete(in, packet.Feed)
		return nil, err
	}
	return event, nil
}

// errMisfit marks a packet that was left out because it does not fit.
var errMisfit = errors.New("left out")

// events returns what was recorded, as it was. An error that is not errMisfit ends it.
func (in intakes) events(records iter.Seq2[journal.Record, error]) iter.Seq2[relay.Event, error] {
	return func(yield func(relay.Event, error) bool) {
		for record, err := range records {
			if err != nil {
				yield(nil, fmt.Errorf("behind record %d: %w", record.Seq, err))
				return
			}
			event, err := in.again(record.Event)
			if err != nil {
				err = fmt.Errorf("record %d: %w: %w", record.Seq, errMisfit, err)
			}
			if !yield(event, err) {
				return
			}
		}
	}
}

// restored is a show folded from its records.
type restored struct {
	show    *relay.Show
	past    *relay.History // of the last of it, for scenes that are held back
	intakes intakes
	records int
	errs    []error
}

// errsMost is how many errors of a restoring are told.
const errsMost = 10

// restoreGC lets a day's show come back with fewer collections: hardly anything of what
// it passes through stays.
const restoreGC = 400

// restore folds records into the show they make; each event is told to taken as well.
// A show without any begins at now. What cannot be read is left out and told.
func restore(plan relay.Plan, records iter.Seq2[journal.Record, error], now time.Time, taken func(relay.Event)) restored {
	defer debug.SetGCPercent(debug.SetGCPercent(restoreGC))
	r := restored{past: relay.NewHistory(), intakes: make(intakes)}
	for event, err := range r.intakes.events(records) {
		if err != nil {
			if len(r.errs) < errsMost {
				r.errs = append(r.errs, err)
			}
			continue
		}
		if r.show == nil {
			r.show = relay.NewShow(plan, event.When())
		}
		if event.When().Before(now.Add(-relay.HoldMost)) {
			r.show = r.show.After(event)
		} else {
			r.show = r.past.After(r.show, event)
		}
		taken(event)
		r.records++
	}
	r.show = cmp.Or(r.show, relay.NewShow(plan, now))
	return r
}
