package bus

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"clocktell/relay"
)

// single starts a process that nobody stands by for, with a follower that never leads.
func single(t *testing.T) (a, b *node, line *proxy, s *Server) {
	t.Helper()
	s = serve(t, "127.0.0.1:0", t.TempDir())
	line = newProxy(t, s.address())
	a, b = newNode(t, line.url(), "a"), newNode(t, s.URL(), "b")
	a.o.Pair, b.o.Pair, b.o.Follow = false, false, true
	a.start()
	leading(t, a)
	return a, b.start(), line, s
}

// alonely lets a process enter so many things by itself, and returns their IDs.
func alonely(t *testing.T, n *node, what string, many int) (ids []string) {
	t.Helper()
	for i := range many {
		ids = append(ids, fmt.Sprintf("%s-%d", what, i))
		n.in <- note(n, ids[i])
	}
	until(t, "the show goes on", func() bool { return n.has(ids[many-1]) })
	return ids
}

func wantWritten(t *testing.T, s *Server, want []string) {
	t.Helper()
	all, _, _ := written(t, s)
	if !slices.Equal(all, want) {
		t.Errorf("the stream holds\n%v\nwant\n%v", all, want)
	}
}

func TestAloneGoesOnWithoutTheBus(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	s := serve(t, "127.0.0.1:0", dir)
	listen := s.address()
	a, b := newNode(t, s.URL(), "a"), newNode(t, s.URL(), "b")
	a.o.Pair, b.o.Follow = false, true
	a.start()
	b.start()
	enters(t, a, b, "before")
	s.Close()
	ids := append([]string{"before"}, alonely(t, a, "meanwhile", 150)...)
	until(t, "it is said", func() bool { return strings.Contains(a.show.Load().Bus.Wrong, "goes on by itself") && a.bus.Now().Cut })
	if a.bus.Now().Kept == 0 {
		t.Error("nothing is kept")
	}
	until(t, "the follower says that it hears nobody", func() bool {
		return strings.Contains(b.show.Load().Bus.Wrong, "does not answer; see whether it runs and can be reached; what is shown is of ")
	})
	s = serve(t, listen, dir)
	until(t, "the follower has all of it", func() bool { return b.has(ids[len(ids)-1]) })
	until(t, "all is well", func() bool {
		return a.show.Load().Bus == (relay.Bus{Role: relay.BusLeads, Leader: "a"}) && b.show.Load().Bus == (relay.Bus{Role: relay.BusFollows, Leader: "a"}) && !a.bus.Now().Cut && a.bus.Now().Kept == 0
	})
	enters(t, a, b, "after")
	wantWritten(t, s, append(ids, "after"))
}

// TestAloneWhenTheAnswerIsLost holds that what was appended without an answer is not
// appended again.
func TestAloneWhenTheAnswerIsLost(t *testing.T) {
	t.Parallel()
	a, b, line, s := single(t)
	line.set(func() { line.mute = true })
	ids := alonely(t, a, "unanswered", 5)
	until(t, "the first of them is in the stream", func() bool { return b.has(ids[0]) })
	until(t, "it is cut off", func() bool { return a.bus.Now().Cut })
	ids = append(ids, alonely(t, a, "meanwhile", 5)...)
	line.cut()
	line.heal()
	until(t, "all of it is there", func() bool { return b.has(ids[9]) && !a.bus.Now().Cut })
	wantWritten(t, s, ids)
}

// TestAloneKeepsSoMuch sets a limit that is soon reached.
func TestAloneKeepsSoMuch(t *testing.T) {
	t.Parallel()
	for of, most := range map[string]limits{"messages": {10, 1 << 20}, "bytes": {1000, 2000}} {
		t.Run(of, func(t *testing.T) {
			s := serve(t, "127.0.0.1:0", t.TempDir())
			line := newProxy(t, s.address())
			a := newNode(t, line.url(), "a")
			a.o.Pair = false
			if err := a.open(t.Context()); err != nil {
				t.Fatal(err)
			}
			a.bus.kept = most
			a.run()
			leading(t, a)
			line.drop()
			until(t, "the limit", func() bool { return a.bus.Now().Dropped > 0 })
			alonely(t, a, "more", 3)
			until(t, "it is said", func() bool { return strings.Contains(a.show.Load().Bus.Wrong, "away for longer") })
			if now := a.bus.Now(); now.Kept != 0 || !now.Cut || now.Dropped < 3 {
				t.Errorf("%+v", now)
			}
			line.heal()
			if err := a.stop(); err != nil { // and does not write behind what is missing
				t.Fatal(err)
			}
			all, _, _ := written(t, s)
			if len(all) > 0 {
				t.Errorf("the stream has %v", all)
			}
		})
	}
}

// TestAloneWhenAnotherWrites lets one that was not to stand by take the show over meanwhile.
func TestAloneWhenAnotherWrites(t *testing.T) {
	t.Parallel()
	a, _, line, s := single(t)
	line.drop()
	until(t, "a is cut off", func() bool { return a.bus.Now().Cut })
	other := newNode(t, s.URL(), "other").start()
	leading(t, other)
	line.heal()
	until(t, "it is said", func() bool { return strings.Contains(a.show.Load().Bus.Wrong, "another has written") })
	alonely(t, a, "unseen", 3)
	if other.has("unseen-0") || a.bus.Now().Dropped < 3 {
		t.Errorf("%+v", a.bus.Now())
	}
}

// TestAloneWhenTheBusLosesTheShow starts the bus again with nothing in it.
func TestAloneWhenTheBusLosesTheShow(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	listen := s.address()
	a := newNode(t, s.URL(), "a")
	a.o.Pair = false
	a.start()
	leading(t, a)
	s.Close()
	serve(t, listen, t.TempDir())
	until(t, "it is said", func() bool { return strings.Contains(a.show.Load().Bus.Wrong, "the bus has lost it") })
	alonely(t, a, "on", 3)
}

// TestAloneLeavesNothingOut ends a process as the bus comes back: what it kept is appended
// before it says that it leaves.
func TestAloneLeavesNothingOut(t *testing.T) {
	t.Parallel()
	a, b, line, s := single(t)
	line.drop()
	until(t, "a is cut off", func() bool { return a.bus.Now().Cut })
	ids := alonely(t, a, "kept", 20)
	line.heal()
	until(t, "there is a connection", func() bool { return a.bus.stream.conn.IsConnected() })
	if err := a.stop(); err != nil {
		t.Fatal(err)
	}
	until(t, "the follower has all of it", func() bool { return b.has(ids[19]) })
	wantWritten(t, s, ids)
}
