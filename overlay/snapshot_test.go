package overlay

import (
	"bytes"
	"encoding/json"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// eventful is a show with everything in it that a snapshot tells.
func eventful(t *testing.T) *relaytest.Stage {
	s := twoFeeds("e4 e5 Nf3", "e4 e5 Bc4")
	do(t, s, relay.ByHand{Act: relay.ActMove, Ply: 4, SAN: "Nc6"}, relay.ByHand{Act: relay.ActName, Side: "white", Text: "Marlow, Anna"})
	s.Fail("timeout")
	s.Wait(20 * time.Second)
	return s
}

func TestSnapshotOfEqualShows(t *testing.T) {
	one, other := eventful(t), eventful(t)
	if !bytes.Equal(Snapshot(one.Show), Snapshot(other.Show)) {
		t.Error("the same story twice gives two snapshots")
	}
	if !bytes.Equal(Snapshot(one.Show), Snapshot(one.Show)) {
		t.Error("one show gives two snapshots")
	}
	for what, change := range map[string]func(*relaytest.Stage){
		"a move":    func(s *relaytest.Stage) { s.Take(told("e4 e5 Nf3 Nc6 Bb5")) },
		"an answer": func(s *relaytest.Stage) { s.Same(time.Second) },
		"a pin": func(s *relaytest.Stage) {
			s.Enter(relay.ByHand{Board: 1, Act: relay.ActPin, Feed: relaytest.BackupName})
		},
		"a refusal":   func(s *relaytest.Stage) { s.Enter(relay.ByHand{Board: 9, Act: relay.ActThaw}) },
		"a lost disk": func(s *relaytest.Stage) { s.Apply(relay.JournalState{Text: "full"}) },
		"a second one": func(s *relaytest.Stage) {
			s.Take(told("e4 e5 Nf3") + relaytest.Packet(relaytest.Game{White: "Alba, A", Table: "2"}))
		},
	} {
		changed := eventful(t)
		change(changed)
		if bytes.Equal(Snapshot(one.Show), Snapshot(changed.Show)) {
			t.Errorf("%s does not show in the snapshot", what)
		}
	}
}

// TestSnapshotIsWhole: nothing of the show is missing.
func TestSnapshotIsWhole(t *testing.T) {
	s := eventful(t)
	var got snapshot
	decoder := json.NewDecoder(bytes.NewReader(Snapshot(s.Show)))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&got); err != nil {
		t.Fatal(err)
	}
	switch {
	case got.Show.Title != s.Show.Title || got.Show.Boards != 1:
		t.Errorf("show %+v", got.Show)
	case len(got.Boards) != 1 || got.Boards[0].Base != 0 || len(got.Boards[0].Plies) != 4:
		t.Errorf("boards %+v", got.Boards)
	case len(got.Prompts.Items) != len(s.Show.Said.Items) || len(got.Prompts.Items) == 0:
		t.Errorf("%d prompts, the show has %d", len(got.Prompts.Items), len(s.Show.Said.Items))
	case len(got.Feeds.Items) != 2 || got.Feeds.Items[0].LastFault == nil:
		t.Errorf("feeds %+v", got.Feeds)
	case len(got.Sources.Items) != 1 || len(got.Sources.Items[0].ByHand) != 2:
		t.Errorf("sources %+v", got.Sources)
	case uint64(len(got.Log)) != s.Show.Log.Total || len(got.Log) == 0:
		t.Errorf("%d lines of the show log, the show has %d", len(got.Log), s.Show.Log.Total)
	}
}
