package bus

import (
	"fmt"
	"testing"
	"time"

	"clocktell/relay"
)

// many is how many entries wait for a process whose line is slow. They come one by one: the
// line gives them to it in several pieces.
const many = 400

// TestComesWhenItHasCaughtUp lets much happen between the moment at which a process has read the
// past and the one at which it begins to follow. It says how the bus is, which its pages wait
// for, only when it has all of that.
func TestComesWhenItHasCaughtUp(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	line := newProxy(t, s.address())
	a, b := newNode(t, s.URL(), "a").start(), newNode(t, line.url(), "b")
	b.o.Follow, b.o.AckWait = true, soon
	leading(t, a)
	if err := b.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	enterMany(t, a)
	line.set(func() { line.delay = 20 * time.Millisecond })
	b.run()
	wantAllWhenWell(t, b)
}

// TestIsWellWhenItHasCaughtUp cuts a process off while much happens: when the bus is back its
// pages stay away until it has all of that.
func TestIsWellWhenItHasCaughtUp(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	line := newProxy(t, s.address())
	a, b := newNode(t, s.URL(), "a").start(), newNode(t, line.url(), "b")
	b.o.Follow = true
	enters(t, a, b.start(), "before")
	line.drop()
	until(t, "b is cut off", func() bool { return b.show.Load().Bus.CutOff() })
	enterMany(t, a)
	line.set(func() { line.down, line.delay = false, 5*time.Millisecond })
	wantAllWhenWell(t, b)
}

// enterMany lets a leader take many entries.
func enterMany(t *testing.T, a *node) {
	t.Helper()
	for i := range many {
		a.in <- note(a, fmt.Sprint("entry-", i))
		until(t, "it is taken", func() bool { return a.has(fmt.Sprint("entry-", i)) })
	}
}

// wantAllWhenWell waits until a process tells its pages that all is well, and wants it to have
// what was entered by then.
func wantAllWhenWell(t *testing.T, b *node) {
	t.Helper()
	var show *relay.Show
	until(t, "it is well", func() bool {
		show = b.show.Load()
		return show.Bus.Role == relay.BusFollows && !show.Bus.CutOff()
	})
	if _, known := show.Entry(fmt.Sprint("entry-", many-1)); !known {
		t.Error("its pages come when it has not caught up")
	}
}

// TestComesWhereNobodyLeads: whoever has all that there is serves it, also when nobody goes on
// with it.
func TestComesWhereNobodyLeads(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a, b := newNode(t, s.URL(), "a").start(), newNode(t, s.URL(), "b")
	leading(t, a)
	if err := a.stop(); err != nil {
		t.Fatal(err)
	}
	b.o.Follow, b.o.Lease = true, time.Hour
	b.start()
	until(t, "it is well", func() bool { return b.show.Load().Bus.Role == relay.BusFollows })
}
