package bus

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"clocktell/relay"
)

// TestBegunAnew begins the show anew under a leader and a follower, with events that have
// happened already.
func TestBegunAnew(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a, b := newNode(t, s.URL(), "a").start(), newNode(t, s.URL(), "b")
	b.o.Follow = true
	enters(t, a, b.start(), "before")
	c := newNode(t, s.URL(), "c")
	bus, err := Open(t.Context(), c.o)
	if err != nil {
		t.Fatal(err)
	}
	defer bus.Close()
	var events []relay.Event
	for i := range 3 * batchMost {
		events = append(events, note(c, strings.Repeat("i", i+1)))
	}
	until(t, "it is begun between two messages of the leader", func() bool {
		if err := bus.Past(t.Context(), func(relay.Event) {}); err != nil {
			t.Fatal(err)
		}
		err := bus.Begin(t.Context(), Beginning{Epoch: "two", Began: c.now(), By: "c"}, events)
		if err != nil && !errors.Is(err, ErrAnew) {
			t.Fatal(err)
		}
		return err == nil
	})
	a.wantEnd(ErrAnew)
	b.wantEnd(ErrAnew)
	all, _, _ := written(t, s)
	if len(all) != len(events) {
		t.Errorf("the stream has %d entries, want %d", len(all), len(events))
	}
}

// TestBeginsNotOverWhatItHasNotRead lets a process lead the show that is there just before
// another one, which heard nobody, begins it anew: what that has not read must stay.
func TestBeginsNotOverWhatItHasNotRead(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a, b := newNode(t, s.URL(), "a"), newNode(t, s.URL(), "b")
	if err := a.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	if err := b.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	defer b.bus.Close()
	enters(t, a.run(), a, "acknowledged")
	if err := a.stop(); err != nil {
		t.Fatal(err)
	}
	if err := b.bus.Begin(t.Context(), Beginning{Epoch: "two", By: "b"}, nil); !errors.Is(err, ErrAnew) {
		t.Errorf("got %v", err)
	}
	if all, _, _ := written(t, s); len(all) != 1 {
		t.Errorf("the stream has %v", all)
	}
}

// TestTwoBeginAtOnce opens twice where there is no show: only one may begin it.
func TestTwoBeginAtOnce(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	var buses []*Bus
	for _, id := range []string{"a", "b"} {
		bus, err := Open(t.Context(), newNode(t, s.URL(), id).o)
		if err != nil {
			t.Fatal(err)
		}
		defer bus.Close()
		buses = append(buses, bus)
	}
	if err := buses[0].Begin(t.Context(), Beginning{Epoch: "a"}, nil); err != nil {
		t.Fatal(err)
	}
	if err := buses[1].Begin(t.Context(), Beginning{Epoch: "b"}, nil); !errors.Is(err, ErrAnew) {
		t.Errorf("got %v", err)
	}
	if err := buses[1].Await(t.Context()); err != nil || buses[1].begin.Epoch != "a" {
		t.Errorf("got %+v, %v", buses[1].begin, err)
	}
}

// TestStreamLost starts the bus again without what it had: nobody goes on as if it were there.
func TestStreamLost(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	listen := s.address()
	a, b := newNode(t, s.URL(), "a").start(), newNode(t, s.URL(), "b").start()
	enters(t, a, b, "before")
	s.Close()
	serve(t, listen, t.TempDir())
	a.wantEnd(ErrAnew)
	b.wantEnd(ErrAnew)
}

// TestPastIsLost lets the bus lose what a process reads of the past: it does not wait for that for ever.
func TestPastIsLost(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	n := newNode(t, s.URL(), "a")
	if err := n.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(n.bus.Close)
	ctx, cancel := context.WithTimeout(t.Context(), soon)
	defer cancel()
	if err := n.bus.past(ctx, n.bus.stream.last+10, func(relay.Event) {}); !errors.Is(err, ErrAnew) {
		t.Errorf("got %v", err)
	}
}

// TestStreamLostAndLongAgain lets another show come as far in the stream as a process was in
// the one before, while its line is down.
func TestStreamLostAndLongAgain(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	line := newProxy(t, s.address())
	a, b := newNode(t, s.URL(), "a").start(), newNode(t, line.url(), "b")
	b.o.Follow = true
	enters(t, a, b.start(), "before")
	line.drop()
	if err := a.stop(); err != nil {
		t.Fatal(err)
	}
	listen, was := s.address(), b.bus.Now().Last
	s.Close()
	s = serve(t, listen, t.TempDir())
	c := newNode(t, s.URL(), "c").start()
	until(t, "the other show is longer", func() bool { return c.bus.Now().Last > was+3 })
	line.heal()
	b.wantEnd(ErrAnew)
}

// TestLedByAnother starts one that is not to stand by while another one leads.
func TestLedByAnother(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a, b := newNode(t, s.URL(), "a"), newNode(t, s.URL(), "b")
	a.o.Pair, b.o.Pair = false, false
	leading(t, a.start())
	b.start().wantEnd(ErrLed)
	enters(t, a, a, "the first one goes on")
}

// TestOpenWithoutBus says where it looked, and nothing of what opens the bus.
func TestOpenWithoutBus(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	at := s.address()
	s.Close()
	n := newNode(t, "nats://ada:secret@"+at, "a")
	_, err := Open(t.Context(), n.o)
	if !errors.Is(err, ErrNoBus) || !strings.Contains(err.Error(), at) || strings.Contains(err.Error(), "secret") {
		t.Errorf("got %v", err)
	}
	n.o.Show = "No Name"
	if _, err := Open(t.Context(), n.o); err == nil || errors.Is(err, ErrNoBus) {
		t.Errorf("got %v", err)
	}
}

// TestToken opens a bus that wants one.
func TestToken(t *testing.T) {
	t.Parallel()
	s, err := Serve(ServerOptions{Listen: "127.0.0.1:0", Dir: t.TempDir(), Token: "secret"})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if _, err := Open(t.Context(), newNode(t, s.URL(), "a").o); !errors.Is(err, ErrNoBus) {
		t.Errorf("without it: %v", err)
	}
	bus, err := Open(t.Context(), newNode(t, "nats://secret@"+s.address(), "a").o)
	if err != nil {
		t.Fatal(err)
	}
	bus.Close()
}

func TestServeNowhere(t *testing.T) {
	t.Parallel()
	for _, listen := range []string{"", "4222", ":4222", "here:there"} {
		if s, err := Serve(ServerOptions{Listen: listen, Dir: t.TempDir()}); err == nil {
			s.Close()
			t.Errorf("%q is taken", listen)
		}
	}
}

// TestUnfinishedBeginning ends a process amid what a show is begun with: whoever reads it then
// knows that there should be more.
func TestUnfinishedBeginning(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a := newNode(t, s.URL(), "a")
	if err := a.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	defer a.bus.Close()
	for whole, have := range map[bool]int{false: 2, true: 3} {
		events := []relay.Event{note(a, "one"), note(a, "two"), note(a, "three")}
		if err := a.bus.Begin(t.Context(), Beginning{Epoch: fmt.Sprint("of-", have), Began: a.now()}, nil); err != nil {
			t.Fatal(err)
		}
		text, err := json.Marshal(Beginning{Epoch: a.bus.stream.epoch, Events: len(events)})
		if err != nil {
			t.Fatal(err)
		}
		messages, err := a.bus.stream.messages(events[:have])
		if err != nil {
			t.Fatal(err)
		}
		if _, err := a.bus.appendAll(t.Context(), append([]message{{ofBegin, text}}, messages...)); err != nil {
			t.Fatal(err)
		}
		a.bus.beginAt = a.bus.stream.last
		b := newNode(t, s.URL(), "b")
		other, err := Open(t.Context(), b.o)
		if err != nil {
			t.Fatal(err)
		}
		if err := other.Past(t.Context(), func(relay.Event) {}); err != nil || other.Whole() != whole {
			t.Errorf("%d of %d events: whole %v, %v", have, len(events), other.Whole(), err)
		}
		other.Close()
	}
}
