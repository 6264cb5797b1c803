package bus

import (
	"context"
	"fmt"
	"testing"
	"time"

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
	back, done := make(chan struct{}, 1), make(chan error)
	go func() { done <- n.bus.askWhileCut(ctx, back) }()
	select {
	case <-back:
		t.Error("it has answered over a line that hangs")
	case <-time.After(2*retryEvery + retryEvery/2):
	}
	line.stall(false)
	until(t, "it answers", func() bool { return len(back) == 1 })
	stop()
	if err := <-done; err != nil {
		t.Error(err)
	}
}
