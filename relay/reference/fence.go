package reference

import (
	"io"
	"math/bits"
)

// fence finds the block that a position is in, if it is in any.
type fence struct {
	rows []uint64 // two a block, see fenceRow
	// begins[p] is the number of blocks whose first position is lower than any
	// with the leading bits p.
	begins []uint32
	shift  uint
}

// Positions are hashes, so that a block is found by its leading bits in a step
// or two; when they are not, by halving.
const fenceBitsMost = 24

func openFence(from io.ReaderAt, h *head) (fence, error) {
	rows, err := readColumn[uint64](from, sectionNames[fenceTable], h.sections[fenceTable])
	if err != nil {
		return fence{}, err
	}
	f := fence{rows: rows}
	for i := range f.blocks() {
		at, size := f.place(i)
		if !h.inData(at, size) || size < blockHead || i > 0 && f.first(i) <= f.first(i-1) {
			return fence{}, damaged("block %d does not stand where it should", i)
		}
	}
	width := min(fenceBitsMost, bits.Len(uint(f.blocks())))
	f.shift = 64 - uint(width)
	f.begins = make([]uint32, 1<<width+1)
	for i := range f.blocks() {
		f.begins[f.first(i)>>f.shift+1]++
	}
	for p := 1; p < len(f.begins); p++ {
		f.begins[p] += f.begins[p-1]
	}
	return f, nil
}

func (f *fence) blocks() int            { return len(f.rows) / 2 }
func (f *fence) first(block int) uint64 { return f.rows[2*block] }

func (f *fence) place(block int) (at int64, size int) {
	row := f.rows[2*block+1]
	return int64(row & (1<<48 - 1)), int(row >> 48)
}

// find returns the last block that does not begin after a position, -1 if all do.
func (f *fence) find(position uint64) int {
	p := position >> f.shift
	low, high := int(f.begins[p]), int(f.begins[p+1])
	for low < high {
		middle := int(uint(low+high) >> 1)
		if f.first(middle) <= position {
			low = middle + 1
		} else {
			high = middle
		}
	}
	return low - 1
}

// inData reports whether a stretch lies within the section of data.
func (h *head) inData(at int64, size int) bool {
	s := h.sections[data]
	return at >= s.at && size >= 0 && at <= s.at+s.size-int64(size)
}
