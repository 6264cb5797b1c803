package bus

import (
	"context"
	"encoding/json"
	"slices"
	"time"
	"unicode/utf8"

	"github.com/nats-io/nats.go"

	"clocktell/relay"
)

// Limits of telling who sits where.
const (
	peopleEvery   = time.Second     // how often a process tells of its people
	peopleAway    = 5 * time.Second // after which a process that says nothing has none
	processesMost = 1000            // whose people are listed
	peopleMost    = 200             // of one process
	ofPeople      = ".people"       // no stream keeps it
)

// people is who sits at the pages of one process.
type people struct {
	ID    string   `json:"id"` // of the process's line to the bus
	Names []string `json:"names"`
}

// heardOf is what another process last said of its people.
type heardOf struct {
	names []string
	at    time.Time
}

// People tells the other processes who sits at the pages here, and calls others with all who
// sit elsewhere whenever that changes, until ctx ends. Nothing keeps it: it is of this moment.
func (b *Bus) People(ctx context.Context, here func() []string, others func([]string)) error {
	said := make(chan *nats.Msg, processesMost) // past it the library drops: they say it again
	subscription, err := b.stream.conn.ChanSubscribe(b.stream.subject+ofPeople, said)
	if err != nil {
		return err
	}
	defer subscription.Unsubscribe()
	ticker := time.NewTicker(peopleEvery)
	defer ticker.Stop()
	heard, told := make(map[string]heardOf), []string(nil)
	for {
		select {
		case m := <-said:
			b.hear(heard, m.Data)
		case now := <-ticker.C:
			b.tellPeople(here())
			forget(heard, now)
		case <-ctx.Done():
			return nil
		}
		if names := namesOf(heard); !slices.Equal(names, told) {
			told = names
			others(names)
		}
	}
}

func (b *Bus) hear(heard map[string]heardOf, text []byte) {
	var p people
	if json.Unmarshal(text, &p) != nil || p.ID == b.self || len(p.Names) > peopleMost || slices.ContainsFunc(p.Names, tooLong) {
		return
	}
	if _, known := heard[p.ID]; known || len(heard) < processesMost {
		heard[p.ID] = heardOf{p.Names, time.Now()}
	}
}

// tooLong reports a name that no page would have been let sit under.
func tooLong(name string) bool { return utf8.RuneCountInString(name) > relay.WhoMost }

// tellPeople says who sits here. What is not heard is said again.
func (b *Bus) tellPeople(names []string) {
	text, err := json.Marshal(people{ID: b.self, Names: names[:min(len(names), peopleMost)]})
	if err == nil {
		err = b.stream.conn.Publish(b.stream.subject+ofPeople, text)
	}
	if err != nil {
		b.o.Log.Debug("who sits here could not be told", "err", err)
	}
}

// forget drops what processes said that are gone.
func forget(heard map[string]heardOf, now time.Time) {
	for id, h := range heard {
		if now.Sub(h.at) > peopleAway {
			delete(heard, id)
		}
	}
}

// namesOf are all who sit elsewhere, in a fixed order.
func namesOf(heard map[string]heardOf) []string {
	var names []string
	for _, h := range heard {
		names = append(names, h.names...)
	}
	slices.Sort(names)
	return slices.Compact(names)
}
