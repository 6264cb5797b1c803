package bus

import (
	"fmt"
	"testing"

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
		want, cut := soonAgain, true
		if left == 0 {
			want, cut = retryEvery, false
		}
		bytes := wr.bytes
		if again := wr.retry(t.Context()); again != want || len(wr.kept) != left || wr.cut != cut || wr.bytes >= bytes {
			t.Errorf("turn %d: again in %v, %d messages of %d bytes left, cut off %v", turn+1, again, len(wr.kept), wr.bytes, wr.cut)
		}
	}
	if all, _, _ := written(t, s); len(all) != many || wr.bytes != 0 {
		t.Errorf("the stream holds %d of %d, %d bytes are kept", len(all), many, wr.bytes)
	}
}
