package bus

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"clocktell/relay"
)

// TestCatchesUpByTurns lets a bus come back for which much has waited: of that so much only is
// appended at once, or the show would stand still for as long as all of it takes.
func TestCatchesUpByTurns(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	n := newNode(t, s.URL(), "a")
	n.o.Pair = false
	if err := n.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	defer n.bus.Close()
	wr := &writing{bus: n.bus, way: make(way, 10), cut: true}
	many := 2*turnMost + 1
	for i := range many {
		messages, err := n.bus.stream.messages([]relay.Event{note(n, fmt.Sprint("kept-", i))})
		if err != nil {
			t.Fatal(err)
		}
		wr.keep(messages)
	}
	for turn, left := range []int{many - turnMost, 1, 0} {
		bytes, more := wr.bytes, left > 0
		if again := wr.retry(t.Context()); again != more || len(wr.kept) != left || wr.cut != more || wr.bytes >= bytes {
			t.Errorf("turn %d: more %v, %d messages of %d bytes left, cut off %v", turn+1, again, len(wr.kept), wr.bytes, wr.cut)
		}
	}
	if all, _, _ := written(t, s); len(all) != many || wr.bytes != 0 {
		t.Errorf("the stream holds %d of %d, %d bytes are kept", len(all), many, wr.bytes)
	}
}

// TestTriesBesideTheShow: whoever goes on alone tries a bus that answers and keeps nothing, as one
// whose disk is full, without holding the show up for as long as an answer may take.
func TestTriesBesideTheShow(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	n := newNode(t, s.URL(), "a")
	n.o.Pair, n.o.AckWait = false, 4*time.Second
	leading(t, n.start())
	keepsNothing(t, s)
	n.in <- note(n, "kept")
	until(t, "it is cut off", func() bool { return n.bus.Now().Cut })
	longest, end := time.Duration(0), time.Now().Add(retryEvery+n.o.AckWait)
	for i := 0; time.Now().Before(end); i++ {
		began, id := time.Now(), fmt.Sprint("entry-", i)
		n.in <- note(n, id)
		until(t, "it goes on", func() bool { return n.has(id) })
		longest = max(longest, time.Since(began))
	}
	until(t, "it says what to look at", func() bool { return strings.Contains(n.show.Load().Bus.Wrong, "disk is full") })
	if longest > n.o.AckWait/2 {
		t.Errorf("it stood still for %v", longest)
	}
}

// keepsNothing puts something in the place of the stream that has as many messages and more, and
// answers whoever writes nothing.
func keepsNothing(t *testing.T, s *Server) {
	t.Helper()
	conn, err := connect(&Options{URL: s.URL(), AckWait: soon})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(conn.close)
	if _, err := conn.conn.Subscribe("clocktell.test.*", func(*nats.Msg) {}); err != nil {
		t.Fatal(err)
	}
	if err := conn.conn.Flush(); err != nil {
		t.Fatal(err)
	}
	if err := conn.js.DeleteStream(t.Context(), "clocktell-test"); err != nil {
		t.Fatal(err)
	}
	_, err = conn.js.CreateStream(t.Context(), jetstream.StreamConfig{Name: "clocktell-test", Subjects: []string{"other"}, FirstSeq: 1000})
	if err == nil {
		_, err = conn.js.Publish(t.Context(), "other", nil)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// TestAsksBesideTheShow: whoever goes on alone tries the bus only when it has answered. On a line
// that hangs each try would hold the show up for as long as an answer may take.
func TestAsksBesideTheShow(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	line := newProxy(t, s.address())
	n := newNode(t, line.url(), "a")
	if err := n.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	defer n.bus.Close()
	n.bus.state.set(func(now *Now) { now.Cut = true })
	line.stall(true)
	ctx, stop := context.WithCancel(t.Context())
	trials, done := newTrials(), make(chan error)
	go func() { done <- n.bus.askWhileCut(ctx, trials) }()
	select {
	case <-trials.back:
		t.Error("it has answered over a line that hangs")
	case <-time.After(2*retryEvery + retryEvery/2):
	}
	line.stall(false)
	until(t, "it answers", func() bool { return len(trials.back) == 1 })
	stop()
	if err := <-done; err != nil {
		t.Error(err)
	}
}
