package bus

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
)

// TestRandomFaults lets three processes share a show while their lines fail in turn and at
// once, and processes leave and come back. What the stream holds at the end is held against
// what each of them was told on the way. More rounds: -args -rounds N.
func TestRandomFaults(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, uint64(*rounds)))
	s := serve(t, "127.0.0.1:0", t.TempDir())
	var nodes, gone []*node
	var lines []*proxy
	for _, id := range []string{"a", "b", "c"} {
		line := newProxy(t, s.address())
		n := hasty(t, line.url(), id)
		nodes, lines = append(nodes, n.start()), append(lines, line)
	}
	faults := make(map[string]int)
	for range *rounds {
		i := r.IntN(3)
		if r.IntN(3) > 0 {
			i = slices.Index(nodes, leading(t, nodes...))
		}
		was := nodes[i]
		what := fault(t, r, nodes, lines, i)
		faults[what]++
		if nodes[i] != was {
			gone = append(gone, was)
		}
		goOn(t, nodes, what)
	}
	wantOneShow(t, s, append(gone, nodes...))
	t.Logf("%d rounds: %v", *rounds, faults)
}

// hasty returns a process that soon gives others up, and makes entries while it leads.
func hasty(t *testing.T, url, id string) *node {
	n := newNode(t, url, id)
	n.o.BeatEvery, n.o.Lease, n.o.AckWait = 40*time.Millisecond, 300*time.Millisecond, 250*time.Millisecond
	n.lead = enterAlways
	return n
}

// enterAlways makes entries as long as the process leads, whose IDs tell who made them.
func enterAlways(ctx context.Context, n *node) error {
	every := time.NewTicker(5 * time.Millisecond)
	defer every.Stop()
	for i := 0; ; i++ {
		select {
		case <-every.C:
		case <-ctx.Done():
			return nil
		}
		select { // which is full where it leads no more
		case n.in <- note(n, fmt.Sprintf("%s-%d-%d", n.o.ID, n.bus.Now().Terms, i)):
		case <-ctx.Done():
			return nil
		}
		if n.bus.Now().Role != relay.BusLeads {
			n.t.Errorf("%s reads feeds and does not lead", n.o.ID)
		}
	}
}

// fault does something to a process or its line, waits until others have gone on, and heals it.
func fault(t *testing.T, r *rand.Rand, nodes []*node, lines []*proxy, i int) string {
	line, others := lines[i], slices.Concat(nodes[:i], nodes[i+1:])
	what := []string{"cut", "dropped", "stalled", "slow", "unanswered", "left"}[r.IntN(6)]
	switch what {
	case "cut":
		line.cut()
		return what
	case "slow":
		line.set(func() { line.delay = time.Duration(r.IntN(100)) * time.Millisecond })
		goOn(t, nodes, what)
	case "dropped":
		line.drop()
		goOn(t, others, what)
	case "stalled":
		line.stall(true)
		goOn(t, others, what)
	case "unanswered":
		line.set(func() { line.mute = true })
		goOn(t, others, what)
		line.cut()
	case "left":
		if err := nodes[i].stop(); err != nil {
			t.Fatal(err)
		}
		goOn(t, others, what)
		old := nodes[i]
		nodes[i] = hasty(t, old.o.URL, fmt.Sprintf("%c%d", old.o.ID[0], time.Now().UnixNano()))
		nodes[i].start()
	}
	line.heal()
	return what
}

// goOn waits until each process has had something that was entered from now on.
func goOn(t *testing.T, nodes []*node, what string) {
	t.Helper()
	had := make([]int, len(nodes))
	for i, n := range nodes {
		had[i] = n.count()
	}
	until(t, "all go on after: "+what, func() bool {
		for i, n := range nodes {
			if n.count() < had[i]+3 {
				return false
			}
		}
		return true
	})
}

// wantOneShow ends the processes, reads the stream, and holds them against it.
func wantOneShow(t *testing.T, s *Server, nodes []*node) {
	t.Helper()
	for _, n := range nodes {
		if err := n.stop(); err != nil {
			t.Fatal(n.o.ID, err)
		}
	}
	all, doubled, two := written(t, s)
	lost, acknowledged := 0, 0
	for _, n := range nodes {
		taken, own := n.ids()
		acknowledged += len(own)
		for _, id := range own {
			if !slices.Contains(all, id) {
				lost++
			}
		}
		if len(taken) > len(all) || !slices.Equal(taken, all[:len(taken)]) {
			t.Errorf("%s was told of something else than the stream holds", n.o.ID)
		}
		if n.back != "" {
			t.Errorf("%s: %s", n.o.ID, n.back)
		}
	}
	t.Logf("%d entries in the stream, %d acknowledged; lost %d, doubled %d, of a process that did not lead %d", len(all), acknowledged, lost, doubled, two)
	if lost+doubled+two > 0 || acknowledged == 0 {
		t.Error("that must not be")
	}
}

// written reads the stream: which entries it has in their order, how many twice, and how
// many by another process than the one that led there.
func written(t *testing.T, s *Server) (all []string, doubled, two int) {
	t.Helper()
	n := newNode(t, s.URL(), "observer")
	bus, err := Open(t.Context(), n.o)
	if err != nil {
		t.Fatal(err)
	}
	defer bus.Close()
	leader, seen := bus.begin.By, make(map[string]bool)
	err = bus.Past(t.Context(), func(e relay.Event) {
		if bus.leader != "" || bus.left {
			leader = bus.leader // nobody, where it has left
		}
		id := idOf(e)
		if id == "" {
			return
		}
		if seen[id] {
			doubled++
		}
		if by, _, _ := strings.Cut(id, "-"); by != leader {
			two++
		}
		seen[id], all = true, append(all, id)
	})
	if err != nil {
		t.Fatal(err)
	}
	return all, doubled, two
}
