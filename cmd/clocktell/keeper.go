package main

import (
	"sync"
	"time"

	"clocktell/relay"
)

// entriesMost is how many of the last entries, by hand and at the panel, stand for all
// before them where a recording's beginning had to be deleted.
const entriesMost = 500

// keeper knows what every feed says as a whole and what people entered, as far as
// the loop has heard: what a segment of the journal begins with.
type keeper struct {
	mu      sync.Mutex // protects following
	at      time.Time
	order   []string // feeds, as they first spoke
	feeds   map[string]*relay.Contents
	entries []relay.Event
}

func newKeeper() *keeper { return &keeper{feeds: make(map[string]*relay.Contents)} }

// take follows an event.
func (k *keeper) take(e relay.Event) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if at := e.When(); !at.IsZero() { // what is of this process alone has no time
		k.at = at
	}
	switch e := e.(type) {
	case relay.PacketRead:
		if k.feeds[e.Feed] == nil {
			k.feeds[e.Feed] = &relay.Contents{}
			k.order = append(k.order, e.Feed)
		}
		k.feeds[e.Feed].Take(e.Parts) // parts that do not fit are told where they are read
	case relay.ByHand, relay.AtPanel:
		k.entries = append(k.entries, e)
		k.entries = k.entries[max(0, len(k.entries)-entriesMost):]
	}
}

// events returns what stands for all that was heard.
func (k *keeper) events() []relay.Event {
	k.mu.Lock()
	defer k.mu.Unlock()
	var out []relay.Event
	for _, feed := range k.order {
		out = append(out, relay.PacketRead{At: k.at, Feed: feed, Parts: k.feeds[feed].Parts()})
	}
	for _, e := range k.entries {
		out = append(out, stamped(e, k.at))
	}
	return out
}

// stamped returns an entry as if it were made at t.
func stamped(e relay.Event, t time.Time) relay.Event {
	switch e := e.(type) {
	case relay.ByHand:
		e.At = t
		return e
	case relay.AtPanel:
		e.At = t
		return e
	case relay.AtDesk:
		e.At = t
		return e
	}
	return e
}
