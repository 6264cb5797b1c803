package bus

import (
	"fmt"
	"slices"
	"sync/atomic"
	"testing"

	"golang.org/x/sync/errgroup"
)

// TestPeopleOfOthers has two who are one process to people, as the demo's edges are, and a third:
// each hears of the others' people and not of its own, and of those who have gone no more.
func TestPeopleOfOthers(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	group, ctx := errgroup.WithContext(t.Context())
	var heard [3]atomic.Pointer[[]string]
	var buses [3]*Bus
	for i, id := range []string{"same", "same", "other"} {
		bus, err := Open(t.Context(), newNode(t, s.URL(), id).o)
		if err != nil {
			t.Fatal(err)
		}
		buses[i] = bus
		here := func() []string { return []string{fmt.Sprint("person ", i)} }
		group.Go(func() error { return bus.People(ctx, here, func(all []string) { heard[i].Store(&all) }) })
	}
	hears := func(i int, want ...string) {
		until(t, fmt.Sprintf("%d hears of %v", i, want), func() bool { all := heard[i].Load(); return all != nil && slices.Equal(*all, want) })
	}
	hears(0, "person 1", "person 2")
	hears(1, "person 0", "person 2")
	hears(2, "person 0", "person 1")
	buses[2].Close()
	hears(0, "person 1")
	buses[0].Close()
	buses[1].Close()
	group.Go(func() error { return fmt.Errorf("over") })
	group.Wait()
}
