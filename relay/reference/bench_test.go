//go:build unix

package reference_test

import (
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"clocktell/relay/clock"
	"clocktell/relay/reference"
	"clocktell/relay/reference/referencetest"
)

// flat is the floor: positions of 8 bytes and 16 bytes of figures each, sorted,
// mapped; every 170th position in memory, so that a look is one page.
type flat struct {
	bytes []byte
	fence []uint64
	n     int
}

const (
	flatRow   = 24
	flatFence = 170
)

func writeFlat(tb testing.TB, path string, occurrences []reference.Occurrence) *flat {
	tb.Helper()
	f := &flat{}
	var b []byte
	for i, o := range occurrences {
		if i > 0 && o.Position == occurrences[i-1].Position {
			continue
		}
		if f.n%flatFence == 0 {
			f.fence = append(f.fence, o.Position)
		}
		f.n++
		b = binary.LittleEndian.AppendUint64(b, o.Position)
		b = append(b, make([]byte, flatRow-8)...)
	}
	if err := os.WriteFile(path, b, 0o600); err != nil {
		tb.Fatal(err)
	}
	file, err := os.Open(path)
	if err != nil {
		tb.Fatal(err)
	}
	defer file.Close()
	if f.bytes, err = unix.Mmap(int(file.Fd()), 0, len(b), unix.PROT_READ, unix.MAP_SHARED); err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { unix.Munmap(f.bytes) })
	return f
}

func (f *flat) lookup(position uint64) (uint64, bool) {
	i := sort.Search(len(f.fence), func(i int) bool { return f.fence[i] > position }) - 1
	if i < 0 {
		return 0, false
	}
	page := f.bytes[i*flatFence*flatRow : min(f.n, (i+1)*flatFence)*flatRow]
	n := len(page) / flatRow
	j := sort.Search(n, func(j int) bool { return binary.LittleEndian.Uint64(page[j*flatRow:]) >= position })
	if j == n || binary.LittleEndian.Uint64(page[j*flatRow:]) != position {
		return 0, false
	}
	return binary.LittleEndian.Uint64(page[j*flatRow+8:]), true
}

func build(tb testing.TB, path string, c referencetest.Collection, occurrences []reference.Occurrence) *reference.Index {
	tb.Helper()
	w, err := reference.Create(path, reference.Head{Depth: c.Plies})
	if err != nil {
		tb.Fatal(err)
	}
	for id := range c.Games {
		if _, err := w.AddGame(c.Game(id)); err != nil {
			tb.Fatal(err)
		}
	}
	for _, o := range occurrences {
		if err := w.Add(o); err != nil {
			tb.Fatal(err)
		}
	}
	if err := w.Commit(); err != nil {
		tb.Fatal(err)
	}
	x, err := reference.Open(path)
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { x.Close() })
	return x
}

const looks = 100_000

// p50p99 times each look, the timer's call included.
func p50p99(looks int, look func(i int)) [2]time.Duration {
	times := make([]time.Duration, looks)
	for i := range times {
		began := time.Now()
		look(i)
		times[i] = time.Since(began)
	}
	slices.Sort(times)
	return [2]time.Duration{times[looks/2], times[looks*99/100]}
}

// BenchmarkLookup prints p50/p99 of a look beside that of the flat file, both
// warm and in turns, five times. Positions are drawn as often as games reach
// them. "read" is the same index, read and not mapped.
func BenchmarkLookup(b *testing.B) {
	c := referencetest.Collection{Games: 500_000, Plies: 40}
	occurrences := c.Occurrences()
	dir := b.TempDir()
	x := build(b, filepath.Join(dir, "index"), c, occurrences)
	fmt.Printf("%d games, %d occurrences, %d positions, %d bytes\n", x.Games(), x.Occurrences(), x.Positions(), x.Size())
	floor := writeFlat(b, filepath.Join(dir, "flat"), occurrences)
	r := rand.New(rand.NewPCG(1, 2))
	hits := make([]uint64, looks)
	for i := range hits {
		hits[i] = occurrences[r.IntN(len(occurrences))].Position
	}
	occurrences = nil
	for range b.N {
		for range 5 {
			compare("hit", x, floor, hits, 0, reference.Filter{})
			compare("miss", x, floor, hits, 1, reference.Filter{})
			compare("filter", x, floor, hits, 0, reference.Filter{MinRating: 2000, FromYear: 2015})
			compare("hit, read", x.Unmapped(), floor, hits, 0, reference.Filter{})
		}
		benchmarkRoot(x)
	}
}

// compare looks at the positions after some, in the flat file and in an index.
func compare(name string, x *reference.Index, floor *flat, positions []uint64, after uint64, f reference.Filter) {
	var out reference.Answer
	flat := p50p99(looks, func(i int) { floor.lookup(positions[i] + after) })
	index := p50p99(looks, func(i int) {
		if err := x.Lookup(positions[i]+after, f, &out); err != nil || (out.Unfiltered > 0) != (after == 0) {
			panic(fmt.Sprint(out.Unfiltered, err))
		}
	})
	fmt.Printf("%-10s flat %v, index %v: %.2f\n", name, flat, index, float64(index[0])/float64(flat[0]))
}

// benchmarkRoot prints p50/p99 of looks at the position that all games share.
func benchmarkRoot(x *reference.Index) {
	var out reference.Answer
	for _, f := range []reference.Filter{{}, {MinRating: 2000}, {FromYear: 1990}, {MinRating: 1300, FromYear: 1990, ToYear: 2024},
		{OnlyOverTheBoard: true, Class: clock.ClassRapid, MinRating: 2200}} {
		times := p50p99(2000, func(int) {
			if err := x.Lookup(referencetest.Root, f, &out); err != nil {
				panic(err)
			}
		})
		fmt.Printf("start %v of %d games, %+v\n", times, out.Games, f)
	}
}
