package bus

import (
	"net/url"
	"strings"
	"sync"

	"clocktell/relay"
)

// Now is what a process's part in the show is at this moment, for metrics and people.
type Now struct {
	Role     relay.BusRole
	Leader   string // ID of the process that leads, as far as this one knows
	Last     uint64 // number of the last message it knows
	Terms    uint64 // how often this process has begun to lead
	Appended uint64 // messages
	Kept     int    // messages that wait for the bus
	Dropped  uint64 // messages that it will never have: there was no room, or no way back
	Cut      bool   // it does not hear the others
}

// state is Now under its lock.
type state struct {
	mu  sync.Mutex // protects now
	now Now
}

// Now returns what the process's part is.
func (b *Bus) Now() Now {
	b.state.mu.Lock()
	defer b.state.mu.Unlock()
	return b.state.now
}

func (s *state) set(change func(*Now)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	change(&s.now)
}

func (s *state) ledBy(id string) { s.set(func(n *Now) { n.Leader = id }) }

// redacted is an address of the bus without what opens it.
func redacted(addresses string) string {
	list := strings.Split(addresses, ",")
	for i, address := range list {
		if u, err := url.Parse(strings.TrimSpace(address)); err == nil {
			u.User = nil
			list[i] = u.String()
		} else {
			list[i] = "an address that cannot be read"
		}
	}
	return strings.Join(list, ",")
}
