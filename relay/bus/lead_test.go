package bus

import (
	"slices"
	"testing"
	"time"

	"github.com/nats-io/nats.go/jetstream"

	"clocktell/relay"
)

// pair starts two processes with a line each; the first one leads.
func pair(t *testing.T) (a, b *node, lineA, lineB *proxy) {
	t.Helper()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	lineA, lineB = newProxy(t, s.address()), newProxy(t, s.address())
	a = newNode(t, lineA.url(), "a").start()
	leading(t, a)
	b = newNode(t, lineB.url(), "b").start()
	return a, b, lineA, lineB
}

// enters lets a process that leads take an entry, and waits until the other one has it.
func enters(t *testing.T, from, to *node, id string) {
	t.Helper()
	from.in <- note(from, id)
	until(t, to.o.ID+" has "+id, func() bool { return to.has(id) })
}

func TestFollowerTakesOverWhenTheLineOfTheLeaderIsCut(t *testing.T) {
	t.Parallel()
	a, b, line, _ := pair(t)
	enters(t, a, b, "before")
	line.drop()
	leading(t, b)
	until(t, "a knows that it leads no more", func() bool { return !a.leads.Load() })
	enters(t, b, b, "meanwhile")
	until(t, "a says that it is cut off", func() bool { return a.bus.Now().Cut && a.show.Load().Bus.Wrong != "" })
	line.heal()
	until(t, "a has what was entered meanwhile", func() bool { return a.has("meanwhile") })
	until(t, "a is well", func() bool {
		return !a.bus.Now().Cut && a.show.Load().Bus == (relay.Bus{Role: relay.BusStandsBy, Leader: "b"})
	})
	if now := a.bus.Now(); now.Leader != "b" || now.Role != relay.BusStandsBy || now.Last == 0 {
		t.Errorf("a: %+v", now)
	}
	enters(t, b, a, "after")
}

// TestNextLeadsAtOnceWhenTheLeaderStops sets a lease that nobody could wait for.
func TestNextLeadsAtOnceWhenTheLeaderStops(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a, b := newNode(t, s.URL(), "a"), newNode(t, s.URL(), "b")
	a.o.Lease, b.o.Lease = time.Hour, time.Hour
	a.start()
	b.start()
	enters(t, a, b, "before")
	if err := a.stop(); err != nil {
		t.Fatal(err)
	}
	leading(t, b)
	enters(t, b, b, "after")
	if err := b.stop(); err != nil {
		t.Fatal(err)
	}
	if last := b.bus.Now().Last; last != b.bus.stream.last {
		t.Errorf("the last message that it knows is %d, it says %d", b.bus.stream.last, last)
	}
	again := newNode(t, s.URL(), "c") // finds that the last one has left
	again.o.Lease = time.Hour
	leading(t, again.start())
	if !again.has("before") || !again.has("after") {
		t.Error("what was entered is lost")
	}
}

// TestPausedLeaderIsRefused stalls the line of the leader with an entry on it, and lets it
// go when another one leads.
func TestPausedLeaderIsRefused(t *testing.T) {
	t.Parallel()
	a, b, line, _ := pair(t)
	enters(t, a, b, "before")
	line.stall(true)
	a.in <- note(a, "late")
	leading(t, b)
	enters(t, b, b, "meanwhile")
	line.stall(false)
	until(t, "a follows", func() bool { return a.has("meanwhile") && !a.leads.Load() })
	enters(t, b, a, "after")
	if a.has("late") || b.has("late") {
		t.Error("the late entry was taken")
	}
	if terms := b.bus.Now().Terms; terms != 1 {
		t.Errorf("b led %d times", terms)
	}
}

// TestOneOfTwoThatClaimLeads stops a leader to whom several listen.
func TestOneOfTwoThatClaimLeads(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	last := newNode(t, s.URL(), "first").start()
	standbys := []*node{newNode(t, s.URL(), "b").start(), newNode(t, s.URL(), "c").start(), newNode(t, s.URL(), "d").start()}
	enters(t, last, standbys[2], "before")
	for len(standbys) > 0 {
		if err := last.stop(); err != nil {
			t.Fatal(err)
		}
		last = leading(t, standbys...)
		for _, n := range standbys {
			enters(t, last, n, "with "+last.o.ID+" for "+n.o.ID)
			if n != last && n.leads.Load() {
				t.Errorf("%s leads beside %s", n.o.ID, last.o.ID)
			}
		}
		var rest []*node
		for _, n := range standbys {
			if n != last {
				rest = append(rest, n)
			}
		}
		standbys = rest
	}
}

// TestBrokenReaderIsNoSilence takes from a process what it reads the stream by, within a lease
// that nobody could wait for: it reads on, and does not claim the show.
func TestBrokenReaderIsNoSilence(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a, b := newNode(t, s.URL(), "a"), newNode(t, s.URL(), "b")
	a.o.Lease, a.o.BeatEvery, b.o.Lease = time.Hour, time.Hour, time.Hour
	leading(t, a.start())
	enters(t, a, b.start(), "before")
	other, err := connect(&Options{URL: s.URL(), AckWait: soon})
	if err != nil {
		t.Fatal(err)
	}
	defer other.close()
	was := consumers(t, other.js)
	for _, name := range was {
		if err := other.js.DeleteConsumer(t.Context(), "clocktell-test", name); err != nil {
			t.Fatal(err)
		}
	}
	until(t, "b reads by something else", func() bool {
		is := consumers(t, other.js)
		return len(was) > 0 && len(is) > 0 && !slices.Contains(was, is[0])
	})
	enters(t, a, b, "after")
	if terms := b.bus.Now().Terms; terms > 0 || !a.leads.Load() {
		t.Errorf("b led %d times; a leads: %v", terms, a.leads.Load())
	}
}

// consumers are what processes read the stream by.
func consumers(t *testing.T, js jetstream.JetStream) (names []string) {
	t.Helper()
	stream, err := js.Stream(t.Context(), "clocktell-test")
	if err != nil {
		t.Fatal(err)
	}
	list := stream.ConsumerNames(t.Context())
	for name := range list.Name() {
		names = append(names, name)
	}
	if list.Err() != nil {
		t.Fatal(list.Err())
	}
	return names
}

// TestCutOffThenLeads gives the bus back to the one that stood by, first.
func TestCutOffThenLeads(t *testing.T) {
	t.Parallel()
	_, b, lineA, lineB := pair(t)
	lineB.drop()
	lineA.drop()
	until(t, "b is cut off", func() bool { return b.bus.Now().Cut })
	lineB.heal()
	leading(t, b)
	until(t, "all is well", func() bool {
		return !b.bus.Now().Cut && b.show.Load().Bus == (relay.Bus{Role: relay.BusLeads, Leader: "b"})
	})
}

// TestLateEntryIsNotDone leaves an entry at a process that does not lead, as one does who was
// let in just before it was deposed, and was told that nothing came of it: it must not be done
// when that process leads again.
func TestLateEntryIsNotDone(t *testing.T) {
	t.Parallel()
	a, b, _, _ := pair(t)
	b.in <- note(b, "late")
	if err := a.stop(); err != nil {
		t.Fatal(err)
	}
	leading(t, b)
	enters(t, b, b, "in time")
	if b.has("late") {
		t.Error("it is done")
	}
}
