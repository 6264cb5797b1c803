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
func p50p99(looks int, look func(i int)) (time.Duration, time.Duration) {
	times := make([]time.Duration, looks)
	for i := range times {
		began := time.Now()
		look(i)
		times[i] = time.Since(began)
	}
	slices.Sort(times)
	return times[looks/2], times[looks*99/100]
}

// BenchmarkLookup prints what a look takes beside the flat file, both warm and in
// turns.
func BenchmarkLookup(b *testing.B) {
	c := referencetest.Collection{Games: 200_000, Plies: 40}
	occurrences := c.Occurrences()
	dir := b.TempDir()
	began := time.Now()
	x := build(b, filepath.Join(dir, "index"), c, occurrences)
	sayf("%d games, %d occurrences, %d positions: %d bytes, %.1f a game, in %v", x.Games(), x.Occurrences(), x.Positions(), x.Size(), float64(x.Size())/float64(x.Games()), time.Since(began))
	began = time.Now()
	floor := writeFlat(b, filepath.Join(dir, "flat"), occurrences)
	sayf("flat in %v", time.Since(began))
	r := rand.New(rand.NewPCG(1, 2))
	hit := make([]uint64, looks)
	for i := range hit {
		hit[i] = occurrences[r.IntN(len(occurrences))].Position
	}
	var out reference.Answer
	for range b.N {
		for _, kind := range []struct {
			name   string
			lowest uint64
			filter reference.Filter
		}{{"hit", 0, reference.Filter{}}, {"miss", 1, reference.Filter{}}, {"hit, filter", 0, reference.Filter{MinRating: 2000, FromYear: 2015}}} {
			for range 3 {
				f50, f99 := p50p99(looks, func(i int) { floor.lookup(hit[i] + kind.lowest) })
				x50, x99 := p50p99(looks, func(i int) {
					if err := x.Lookup(hit[i]+kind.lowest, kind.filter, &out); err != nil || (out.Unfiltered > 0) != (kind.lowest == 0) {
						b.Fatal(err, out.Unfiltered)
					}
				})
				sayf("%-12s flat %v/%v, index %v/%v: %.2f", kind.name, f50, f99, x50, x99, float64(x50)/float64(f50))
			}
		}
	}
	for _, f := range []reference.Filter{{}, {MinRating: 2000}, {FromYear: 1990}, {MinRating: 1300, FromYear: 1990, ToYear: 2024}, {OnlyOverTheBoard: true, Class: 2, MinRating: 2200}} {
		p := referencetest.Root
		x50, x99 := p50p99(2000, func(int) {
			if err := x.Lookup(p, f, &out); err != nil {
				b.Fatal(err)
			}
		})
		say(fmt.Sprintf("start %+v", f), x50, x99, out.Games, len(out.Moves))
	}
}

func say(args ...any) { fmt.Fprintln(os.Stderr, args...) }

func sayf(format string, args ...any) { fmt.Fprintf(os.Stderr, format+"\n", args...) }
