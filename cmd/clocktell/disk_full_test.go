package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// diskBytes is how large the small disks are: an empty stream and a journal with its log
// take less than half of it.
const diskBytes = 8 << 20

// TestFullDiskOfJournal: the leader's journal has no more room. It says so, the show goes on
// everywhere, and what is acknowledged meanwhile is on the bus: it comes back with a restart,
// and into the journal when there is room.
func TestFullDiskOfJournal(t *testing.T) {
	t.Parallel()
	p := newParty(t)
	p.disk = newSmallDisk(t, p.journal("a"), diskBytes)
	a := p.serve("a", "--pair")
	p.disk = nil
	b := p.serve("b", "--pair")
	edge := p.edge("edge")
	p.within(10*time.Second, "both boards of the feed", func() bool { n, _ := edge.panel.plies(0); return n > 4 })
	p.enter()
	disk := a.disk
	for _, restart := range []bool{true, false} {
		disk.fill()
		p.within(10*time.Second, "the journal refuses", func() bool { return a.alarmed("disk is full") })
		p.busy(6)
		p.settle("the disk is full")
		if b.alarmed("disk") || edge.alarmed("disk") {
			t.Errorf("they say %q and %q", b.verdict(), edge.verdict())
		}
		if restart {
			a.kill()
		}
		disk.free()
		if restart {
			a.again()
		}
		p.within(10*time.Second, "the journal writes again", func() bool { return !a.alarmed("disk") && a.verdict() != "" })
		p.busy(2)
		p.settle("the disk has room again")
	}
	p.entering.end()
	p.feed.hold()
	p.settle("the end")
	p.entering.exact(t, a)
	p.same()
	copyAll(t, disk.path(""), p.journal("a"))
	b.terminate()
	p.compareRecords()
	moves, notes := p.entering.acknowledged()
	t.Logf("%d entries acknowledged, %d attempts sent again; none lost, none doubled", len(moves)+notes, p.entering.again)
}

// copyAll copies a folder without what fills the disk.
func copyAll(t *testing.T, from, to string) {
	t.Helper()
	entries, err := os.ReadDir(from)
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range entries {
		data, err := os.ReadFile(filepath.Join(from, entry.Name()))
		if err == nil && entry.Type().IsRegular() {
			err = os.WriteFile(filepath.Join(to, entry.Name()), data, 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// busy waits until the feed has told so many plies more, and people have entered something.
func (p *party) busy(plies int) {
	p.t.Helper()
	plies += p.feed.plies()
	moves, notes := p.entering.acknowledged()
	p.within(3*takeoverMost, "the feed and people go on", func() bool {
		m, n := p.entering.acknowledged()
		return p.feed.plies() >= plies && len(m) > len(moves) && n > notes
	})
}

// TestFullDiskOfBus: the bus has no more room. A pair stands still and says why; who leads
// alone goes on. When there is room the show goes on everywhere with all that was acknowledged.
func TestFullDiskOfBus(t *testing.T) {
	for name, flags := range map[string][]string{"pair": {"--pair"}, "alone": nil} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			fullBus(t, flags)
		})
	}
}

func fullBus(t *testing.T, flags []string) {
	p := newPartyOn(t, diskBytes)
	a := p.serve("a", flags...)
	if len(flags) > 0 {
		p.serve("b", flags...)
	}
	edge := p.edge("edge")
	p.within(10*time.Second, "both boards of the feed", func() bool { n, _ := edge.panel.plies(0); return n > 4 })
	p.enter()
	p.busy(1)
	p.bus.disk.fill()
	if len(flags) > 0 {
		p.standsStill()
		p.within(takeoverMost, "a tells what to look at", func() bool { return a.alarmed("disk is full") })
	} else {
		p.goesOnAlone(a, edge, "leads the show")
		p.within(takeoverMost, "a tells what to look at", func() bool { return a.alarmed("disk is full") })
	}
	p.bus.disk.free()
	p.bus.kill() // a server that has once had no room takes nothing before it is started again
	p.bus.start()
	p.within(3*takeoverMost, "all is well again", func() bool { return !a.alarmed("bus") && !edge.alarmed("bus") })
	p.busy(2)
	p.settle("the bus has room again")
	p.entering.end()
	p.feed.hold()
	p.settle("the end")
	p.entering.exact(t, edge)
	p.same()
	moves, notes := p.entering.acknowledged()
	t.Logf("%d entries acknowledged, %d attempts sent again; none lost, none doubled", len(moves)+notes, p.entering.again)
}

// standsStill: every process says that nothing goes on, and shows nothing new.
func (p *party) standsStill() {
	p.t.Helper()
	for _, m := range p.members {
		p.within(3*takeoverMost, m.name+" tells what is wrong", func() bool { return m.alarmed("bus") || m.alarmed("leads the show") })
	}
	stood, _ := p.members[0].panel.plies(0)
	<-time.After(time.Second)
	for _, m := range p.members {
		if n, _ := m.panel.plies(0); n != stood {
			p.t.Errorf("%s shows %d plies, %s %d", m.name, n, p.members[0].name, stood)
		}
		p.t.Logf("%s: %s", m.name, m.verdict())
	}
}

// TestBusTooSmall: the bus has less room than the stream of a show may take; who starts the
// show is told what to do.
func TestBusTooSmall(t *testing.T) {
	t.Parallel()
	notUnderRace(t)
	dir := t.TempDir()
	b := newBusChild(t, filepath.Join(dir, "bus"), newSmallDisk(t, filepath.Join(dir, "bus"), diskBytes))
	config := filepath.Join(dir, "large.toml")
	text := "[[feed]]\nname = \"arena\"\nurl = \"http://127.0.0.1:1/\"\n"
	if err := os.WriteFile(config, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	code, _, stderr := call(t, "serve", "--config", config, "--listen", "127.0.0.1:0", "--bus", "nats://"+b.address)
	if code != exitFailed || !strings.Contains(stderr, "max_bytes") {
		t.Errorf("exit %d: %s", code, stderr)
	}
}
