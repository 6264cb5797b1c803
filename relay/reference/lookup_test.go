package reference

import (
	"math/rand/v2"
	"reflect"
	"testing"

	"clocktell/relay/clock"
)

func randomFilter(r *rand.Rand) Filter {
	var f Filter
	if r.IntN(2) == 0 {
		f.MinRating = 100 * r.IntN(30)
	}
	if r.IntN(3) == 0 {
		f.FromYear = 1998 + r.IntN(15)
	}
	if r.IntN(3) == 0 {
		f.ToYear = 1998 + r.IntN(15)
	}
	f.OnlyOverTheBoard = r.IntN(3) == 0
	if r.IntN(2) == 0 {
		f.Class = clock.Class(r.IntN(4))
	}
	return f
}

// public leaves out what Lookup keeps to itself.
func public(a *Answer) Answer {
	out := *a
	out.examples, out.block, out.body, out.detail = nil, nil, nil, nil
	if len(out.Moves) == 0 {
		out.Moves = nil
	}
	return out
}

// TestLookupAgainstTheModel holds random positions and filters against an
// obvious count, with moves of few and of many games.
func TestLookupAgainstTheModel(t *testing.T) {
	for seed := range uint64(6) {
		r := rand.New(rand.NewPCG(seed, 5))
		w := randomWorld(r, []int{1, 40, 3000, 12000, 3000, 20000}[seed], []int{1, 5, 400, 3, 3000, 40}[seed], []int{1, 3, 30, 3, 10, 12}[seed])
		x := w.index(t)
		groups := w.byPosition()
		if x.Games() != len(w.games) || x.Positions() != len(groups) || x.Occurrences() != len(w.occurrences) {
			t.Fatalf("%d games, %d positions, %d occurrences", x.Games(), x.Positions(), x.Occurrences())
		}
		var out Answer
		tried := 0
		for position, here := range groups {
			if tried++; tried > 2000 {
				break
			}
			for _, f := range []Filter{{}, randomFilter(r), randomFilter(r)} {
				if err := x.Lookup(position, f, &out); err != nil {
					t.Fatal(err)
				}
				if got, want := public(&out), w.answer(here, f); !reflect.DeepEqual(got, want) {
					t.Fatalf("seed %d, position %x, %+v:\n got %+v\nwant %+v", seed, position, f, got, want)
				}
			}
			for _, near := range []uint64{position - 1, position + 1, r.Uint64()} {
				if err := x.Lookup(near, Filter{}, &out); err != nil || out.Unfiltered != len(groups[near]) {
					t.Fatalf("position %x: %d games, %v; want %d", near, out.Unfiltered, err, len(groups[near]))
				}
			}
		}
		if err := x.Verify(); err != nil {
			t.Fatal(err)
		}
	}
}
