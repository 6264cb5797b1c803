package overlay

import (
	"fmt"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// BenchmarkHeldLook is what a scene that is held back costs every time the show changes
// and it has nothing to be sent: to find out where it stands, and what was shown then,
// among 20,000 shows.
func BenchmarkHeldLook(b *testing.B) {
	past, show := relay.NewHistory(), relay.NewShow(relaytest.Plan(), relaytest.Start)
	for n := range 20_000 {
		at := relaytest.Start.Add(time.Duration(n) * 50 * time.Millisecond)
		show = past.After(show, relay.AtPanel{At: at, ID: fmt.Sprint(n), Who: "Nadja", Act: relay.PanelAir, Text: "A sentence."})
	}
	tb := relay.NewTimebaseAt(show.At, 1)
	server := New(Options{Relay: relay.NewAfter(past, show, tb), Time: tb})
	v := &viewer{server: server, frames: server.frames.take(held{}), pace: 1, me: &connected{held: held{by: 29 * time.Minute}}, sight: sight{held: held{by: 29 * time.Minute}}}
	v.due = time.AfterFunc(time.Hour, func() {})
	defer v.due.Stop()
	for b.Loop() {
		if out := v.look(nil); len(out) > 0 {
			b.Fatalf("a page that has nothing new is sent %d frames", len(out))
		}
	}
	b.ReportMetric(float64(server.Relay.History().States), "states")
}
