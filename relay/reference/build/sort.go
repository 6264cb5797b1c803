package build

import (
	"cmp"
	"slices"
	"sync/atomic"

	"golang.org/x/sync/errgroup"

	"clocktell/relay/reference"
)

// record is a reference.Occurrence in a form that sorts fast: by pos, then by rest.
type record struct {
	pos  uint64
	rest uint64 // move<<32 | game
}

func newRecord(pos uint64, move uint16, game uint32) record {
	return record{pos, uint64(move)<<32 | uint64(game)}
}

func (r record) occurrence() reference.Occurrence {
	return reference.Occurrence{Position: r.pos, Move: uint16(r.rest >> 32), Game: reference.GameID(r.rest)}
}

func (r record) compare(o record) int {
	if r.pos != o.pos {
		return cmp.Compare(r.pos, o.pos)
	}
	return cmp.Compare(r.rest, o.rest)
}

func (r record) less(o record) bool { return r.pos < o.pos || r.pos == o.pos && r.rest < o.rest }

// Sorting goes by bytes from the highest on, each part in place: 8 bytes of the position,
// 2 of the move, 4 of the game. Few records are sorted faster by comparing.
const (
	sortBytes  = 14
	sortFew    = 64  // put in one by one
	sortSome   = 400 // compared
	sortParted = 256
)

// digit returns a byte of the record's key.
func (r record) digit(level int) uint8 {
	if level < 8 {
		return uint8(r.pos >> (56 - 8*level))
	}
	return uint8(r.rest >> (40 - 8*(level-8)))
}

// sortRecords sorts with several goroutines: one parts the records by the first byte,
// then each sorts some of the parts.
func sortRecords(list []record, workers int) error {
	ends := part(list, 0)
	var next atomic.Int32
	var group errgroup.Group
	for range max(1, workers) {
		group.Go(func() error {
			for {
				i := int(next.Add(1)) - 1
				if i >= sortParted {
					return nil
				}
				sortFrom(list[start(&ends, i):ends[i]], 1)
			}
		})
	}
	return group.Wait()
}

func start(ends *[sortParted]int, i int) int {
	if i == 0 {
		return 0
	}
	return ends[i-1]
}

// sortFrom sorts records that agree in all bytes before level.
func sortFrom(list []record, level int) {
	switch {
	case level == sortBytes || len(list) < 2:
		return
	case len(list) <= sortFew:
		insertionSort(list)
		return
	case len(list) <= sortSome:
		slices.SortFunc(list, record.compare)
		return
	}
	ends := part(list, level)
	for i := range ends {
		sortFrom(list[start(&ends, i):ends[i]], level+1)
	}
}

func insertionSort(list []record) {
	for i := 1; i < len(list); i++ {
		r := list[i]
		j := i
		for ; j > 0 && r.less(list[j-1]); j-- {
			list[j] = list[j-1]
		}
		list[j] = r
	}
}

// part orders records by one byte, in place, and returns where the records with each
// value end. (American flag sort: McIlroy, Bostic, McIlroy, Engineering Radix Sort, 1993;
// from memory.)
func part(list []record, level int) (ends [sortParted]int) {
	var counts [sortParted]int
	for i := range list {
		counts[list[i].digit(level)]++
	}
	var heads [sortParted]int
	sum := 0
	for i, n := range counts {
		heads[i] = sum
		sum += n
		ends[i] = sum
	}
	if len(list) > 0 && counts[list[0].digit(level)] == len(list) {
		return ends
	}
	for i := range heads {
		for heads[i] < ends[i] {
			r := list[heads[i]]
			for d := r.digit(level); int(d) != i; d = r.digit(level) {
				r, list[heads[d]] = list[heads[d]], r
				heads[d]++
			}
			list[heads[i]] = r
			heads[i]++
		}
	}
	return ends
}
