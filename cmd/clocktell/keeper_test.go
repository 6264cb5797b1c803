package main

import (
	"testing"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestKeeperKeepsTime lets a segment of the journal begin just after the journal, or the bus,
// has told how it is: that has no time, and what stands for the past must have one.
func TestKeeperKeepsTime(t *testing.T) {
	t.Parallel()
	k, at := newKeeper(), relaytest.Start
	k.take(relay.AtPanel{At: at, ID: "note", Who: "Ines", Act: relay.PanelNote, Text: "here"})
	for _, e := range []relay.Event{relay.JournalState{Text: "the disk is full"}, relay.BusState{}} {
		k.take(e)
		if kept := k.events(); len(kept) != 1 || !kept[0].When().Equal(at) {
			t.Errorf("after %T it keeps %+v", e, kept)
		}
	}
}
