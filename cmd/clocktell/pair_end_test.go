package main

import (
	"bytes"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"time"

	"clocktell/relay"
	"clocktell/relay/journal"
)

// end lets the show come to rest, and compares what is left of it everywhere.
func (p *pair) end() {
	p.entering.end()
	p.feed.hold()
	p.settle("the end")
	p.party.edge("fresh edge")
	p.settle("a fresh edge")
	p.same()
	if p.t.Failed() {
		return
	}
	led, err := p.bus.leader()
	if err != nil {
		p.t.Fatal(err)
	}
	leader := p.leads(led.by)
	for _, m := range p.members {
		if m != leader {
			m.terminate() // the standby before the leader, or it would lead once more
		}
	}
	leader.terminate()
	p.watch.close()
	if len(p.watch.runs) != 1 {
		p.t.Errorf("the show has been begun %d times", len(p.watch.runs))
	}
	p.compareJournals()
	p.tell()
}

// same compares the revisions that pages hold of all there is: of one revision they were
// compared already.
func (p *party) same() {
	p.t.Helper()
	of := func(m *member) (revs map[string]uint64) {
		m.panel.sees(func() { revs = maps.Clone(m.panel.revs) })
		return revs
	}
	first := p.members[0]
	for _, m := range p.members[1:] {
		p.within(takeoverMost, m.name+" shows what "+first.name+" shows", func() bool { return maps.Equal(of(m), of(first)) })
		p.within(takeoverMost, m.name+" has the log of "+first.name, func() (same bool) {
			m.health.sees(func() { same = m.health.line == first.health.line })
			return same
		})
	}
	if revs := of(first); len(revs) < handBoard+3 {
		p.t.Errorf("only %v were compared", revs)
	}
}

// compareJournals: both journals hold the same events, and make the same show.
func (p *pair) compareJournals() {
	var snapshots [][]byte
	for _, name := range []string{"a", "b"} {
		file := filepath.Join(p.dir, name+".json")
		if code, _, stderr := call(p.t, "replay", p.journal(name), "--snapshot", file); code != exitFine {
			p.t.Fatalf("exit %d: %s", code, stderr)
		}
		data, err := os.ReadFile(file)
		if err != nil {
			p.t.Fatal(err)
		}
		snapshots = append(snapshots, data)
	}
	if at := differAt(snapshots[0], snapshots[1]); at != "" || !bytes.Equal(snapshots[0], snapshots[1]) {
		p.t.Errorf("the journals make two shows: %s", at)
	}
	p.compareEntries(p.compareRecords())
}

// compareRecords: both journals hold the same events in the same order, which it returns.
func (p *party) compareRecords() []relay.Event {
	p.t.Helper()
	a, b := p.recorded("a"), p.recorded("b")
	if len(a) != len(b) || len(a) == 0 {
		p.t.Errorf("%d and %d events in the journals", len(a), len(b))
	}
	for i := range min(len(a), len(b)) {
		if !reflect.DeepEqual(a[i], b[i]) {
			p.t.Fatalf("event %d is %+v in one journal, %+v in the other", i, a[i], b[i])
		}
	}
	return a
}

// recorded returns the events of a journal.
func (p *party) recorded(name string) (events []relay.Event) {
	recording, err := journal.Read(p.t.Context(), p.journal(name))
	if err != nil {
		p.t.Fatal(err)
	}
	defer recording.Close()
	for record, err := range recording.Records() {
		if err != nil {
			p.t.Fatal(err)
		}
		events = append(events, record.Event)
	}
	return events
}

// compareEntries: what was acknowledged is in the show, once each.
func (p *pair) compareEntries(events []relay.Event) {
	moves, notes := p.entering.acknowledged()
	shown := p.a.panel.hand()
	if !slices.Equal(shown, moves) {
		p.t.Errorf("%d moves by hand are shown, acknowledged were %d", len(shown), len(moves))
	}
	atPanel, byHand := make(map[string]bool), make(map[string]bool)
	for _, e := range events {
		switch e := e.(type) {
		case relay.AtPanel:
			atPanel[e.ID] = true
		case relay.ByHand:
			byHand[e.ID] = true
		}
	}
	recording, err := journal.Read(p.t.Context(), p.journal("a"))
	if err != nil {
		p.t.Fatal(err)
	}
	defer recording.Close()
	plan, err := recordedPlan(recording)
	if err != nil {
		p.t.Fatal(err)
	}
	r := restore(plan, recording.Records(), recording.Began, func(relay.Event) {})
	hands, done := p.entering.hands, r.show.Totals
	lost := max(0, notes-len(atPanel)) + max(0, hands-len(byHand))
	doubled := max(0, int(done.AtPanel)-len(atPanel)) + max(0, int(done.ByHand)-len(byHand))
	if len(atPanel) != notes || int(done.AtPanel) != notes || len(byHand) != hands || int(done.ByHand) != hands {
		p.t.Errorf("%d notes are written down and %d were done, acknowledged were %d; by hand %d, %d and %d", len(atPanel), done.AtPanel, notes, len(byHand), done.ByHand, hands)
	}
	p.t.Logf("%d entries acknowledged (%d by hand, %d notes), %d attempts sent again, %d lost, %d doubled; %d events in both journals, the same",
		hands+notes, hands, notes, p.entering.again, lost, doubled, len(events))
}

func (p *pair) tell() {
	slices.Sort(p.took)
	p.t.Logf("%d rounds: %v", *rounds, p.counts)
	if len(p.took) > 0 {
		p.t.Logf("from the fault to the first change by who leads then: %v in the middle, %v at the worst, of %d", p.took[len(p.took)/2].Round(time.Millisecond), p.took[len(p.took)-1].Round(time.Millisecond), len(p.took))
	}
	p.t.Logf("%d frames and %d lines of the show log on %d pages; %d plies of the feed", p.watch.frames, p.watch.told, len(p.pages()), p.feed.plies())
	p.t.Logf("a page moved %d times from process to process, and was shown an older state for %v at most", p.wanderer.came, p.wanderer.older)
}
