package build

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// TestSort holds the sort against slices.SortFunc: positions spread evenly, most of them
// the same, and in order already.
func TestSort(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for _, n := range []int{0, 1, 2, 23, 25, 399, 401, 5_000, 200_000} {
		for _, spread := range []uint64{1, 3, 1 << 20, math.MaxUint64} {
			list := make([]record, n)
			for i := range list {
				list[i] = newRecord(random.Uint64N(spread)*(math.MaxUint64/spread), uint16(random.Uint32N(40)), uint32(i))
			}
			want := slices.Clone(list)
			slices.SortFunc(want, record.compare)
			for range 2 { // the second time it is in order
				if err := sortRecords(list, 2); err != nil {
					t.Fatal(err)
				}
				if !slices.Equal(list, want) {
					t.Errorf("%d records of %d positions are not in order", n, spread)
				}
			}
		}
	}
}

// The order is that of reference.Occurrence.Compare, which the writer asks for.
func TestOrderIsTheWriters(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 10_000 {
		a := newRecord(random.Uint64N(3), uint16(random.Uint32N(3))<<14, random.Uint32N(3)<<30)
		b := newRecord(random.Uint64N(3), uint16(random.Uint32N(3))<<14, random.Uint32N(3)<<30)
		want := a.occurrence().Compare(b.occurrence())
		if got := a.compare(b); got != want || a.less(b) != (want < 0) {
			t.Fatalf("%v before %v: %d and %v, want %d", a, b, got, a.less(b), want)
		}
	}
}

func TestDoubles(t *testing.T) {
	d, random := newDoubles(4), rand.New(rand.NewPCG(7, 8))
	seen := make(map[uint64]bool)
	for range 100_000 {
		hash := random.Uint64N(70_000)
		if hash == 0 {
			hash = 1 // 0 and 1 count as one
		}
		if got := d.add(hash); got == seen[hash] {
			t.Fatalf("%d is new: %v", hash, got)
		}
		seen[hash] = true
	}
	if d.n != len(seen) || d.n*4 > len(d.table)*3+4 {
		t.Errorf("%d games in %d places, want %d in a third more", d.n, len(d.table), len(seen))
	}
}
