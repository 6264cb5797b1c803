package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"testing"
	"time"

	"clocktell/overlay"
	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/journal"
)

// pastShow is five minutes of a show: a feed, sentences on the air, and a hold that changes.
func pastShow(c config.Config) []relay.Event {
	readers := make(intakes)
	var events []relay.Event
	for second := range 300 {
		at := demoStart.Add(time.Duration(second)*time.Second + time.Duration(second%7)*time.Millisecond)
		events = append(events, readers.of(c.Feeds[0].Name).Read(at, dayPacket(0, second)))
		id := fmt.Sprint("act-", second)
		switch second % 60 {
		case 20:
			events = append(events, relay.AtPanel{At: at, ID: id, Who: "Nadja", Act: relay.PanelAir, Text: "A sentence, " + id})
		case 45:
			events = append(events, relay.ByHand{At: at, ID: id, Act: relay.ActHold, Text: "air", For: time.Duration(second) * time.Millisecond})
		}
	}
	return events
}

// TestPastComesBack: after a restart, scenes that are held back find the past that there
// was: at every instant the show as it had been a tenth of a second before, because it is
// so long at most before what happens is on the scenes. The holds of groups are back as well.
func TestPastComesBack(t *testing.T) {
	c := config.Default()
	c.Journal.Dir = t.TempDir()
	f := config.DefaultFeed()
	f.Name, f.URL = "arena", "http://127.0.0.1:1/"
	c.Feeds = append(c.Feeds, f)
	base := relay.NewTimebaseAt(demoStart, 1)
	plan := planOf(c, base)
	kept, _, err := openJournal(t.Context(), c, plan, base, slog.New(slog.DiscardHandler), nil)
	if err != nil {
		t.Fatal(err)
	}
	events := pastShow(c)
	journalAll(t, kept, events)

	ended := events[len(events)-1].When()
	again, r, err := openJournal(t.Context(), c, plan, relay.NewTimebaseAt(ended.Add(3*time.Second), 1), slog.New(slog.DiscardHandler), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	back := relay.NewAfter(r.past, r.show, relay.NewTimebaseAt(ended.Add(3*time.Second), 1))
	checkPast(t, back, relay.NewShow(plan, events[0].When()), events)

	hold, known := r.show.Holds.Of("air")
	if want := (relay.Hold{Group: "air", For: 285 * time.Millisecond, Since: demoStart.Add(285*time.Second + 5*time.Millisecond), From: 225 * time.Millisecond}); !known || hold != want {
		t.Errorf("the hold of the group is %+v, want %+v", hold, want)
	}
}

// journalAll writes events down as a show does.
func journalAll(t *testing.T, kept *journal.Journal, events []relay.Event) {
	t.Helper()
	in, out := make(chan relay.Event, 64), make(chan relay.Event, 64)
	done := make(chan error)
	go func() { done <- kept.Run(context.Background(), in, out) }()
	go func() {
		for range out {
		}
	}()
	for _, e := range events {
		in <- e
	}
	close(in)
	if err := <-done; err != nil {
		t.Fatal(err)
	}
	close(out)
	if err := kept.Close(); err != nil {
		t.Fatal(err)
	}
}

// checkPast holds the past against the events themselves.
func checkPast(t *testing.T, back *relay.Relay, show *relay.Show, events []relay.Event) {
	t.Helper()
	const late = 100 * time.Millisecond
	first, last := events[0].When(), events[len(events)-1].When()
	if show, _ := back.ShownAt(first.Add(-time.Hour)); show != nil {
		t.Error("there is a show before the first")
	}
	looked, next := 0, 0
	for at := first.Add(late); !at.After(last.Add(late)); at = at.Add(333 * time.Millisecond) {
		for ; next < len(events) && !events[next].When().After(at.Add(-late)); next++ {
			show = show.After(events[next])
		}
		show = show.AdvancedTo(at.Add(-late))
		was, _ := back.ShownAt(at)
		if was == nil {
			t.Fatalf("nothing is known of %v", at)
		}
		if got, want := onScenes(t, was), onScenes(t, show); !bytes.Equal(got, want) {
			t.Fatalf("at %v the show was\n%s\nwant\n%s", at, got, want)
		}
		looked++
	}
	if looked < 800 {
		t.Errorf("looked at %d instants: the test shows too little", looked)
	}
}

// onScenes is what scenes are shown of a show.
func onScenes(t *testing.T, show *relay.Show) []byte {
	t.Helper()
	var all map[string]json.RawMessage
	if err := json.Unmarshal(overlay.Snapshot(show), &all); err != nil {
		t.Fatal(err)
	}
	out := append(all["show"], all["boards"]...)
	if show.OnAir.Caption != nil {
		out = append(out, show.OnAir.Caption.Text...)
	}
	return out
}
