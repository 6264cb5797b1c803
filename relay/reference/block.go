package reference

import (
	"encoding/binary"
	"math/bits"
)

const (
	blockMost = 64 // positions of a block
	fenceRow  = 16 // first position of a block; where it is (48 bits) and its size (16)

	// The tag of a position in its block: what its body is.
	singleTags = 4                     // below: one game, one move; the tag is the width of the game's number, less one
	inlineTag  = singleTags - 1        // to largeTag-1: moves, in so many bytes less this
	largeTag   = 255                   // where the moves are
	inlineMost = largeTag - singleTags // bytes

	largeRow  = 12          // where a large body is and its size
	sumSize   = 4           // of a checksum
	blockHead = sumSize + 2 // checksum, number of positions, width of a position
)

// blockWriter collects positions into blocks and keeps the fence.
type blockWriter struct {
	out *sink

	positions []uint64
	tags      []byte
	bodies    []byte
	buf       []byte
	fence     []uint64
}

func (b *blockWriter) add(position uint64, tag byte, body []byte) {
	b.positions = append(b.positions, position)
	b.tags = append(b.tags, tag)
	b.bodies = append(b.bodies, body...)
	if len(b.positions) == blockMost {
		b.flush()
	}
}

func (b *blockWriter) flush() {
	n := len(b.positions)
	if n == 0 {
		return
	}
	first := b.positions[0]
	width := max(1, (bits.Len64(b.positions[n-1]-first)+7)/8)
	buf := append(b.buf[:0], 0, 0, 0, 0, byte(n), byte(width))
	for _, position := range b.positions {
		var row [8]byte
		binary.LittleEndian.PutUint64(row[:], position-first)
		buf = append(buf, row[:width]...)
	}
	buf = append(append(buf, b.tags...), b.bodies...)
	binary.LittleEndian.PutUint32(buf, sumOf(first, buf[4:]))
	b.fence = append(b.fence, first, uint64(b.out.at)|uint64(len(buf))<<48)
	b.out.write(buf)
	b.buf, b.positions, b.tags, b.bodies = buf, b.positions[:0], b.tags[:0], b.bodies[:0]
}

// bodySize is the size of the body that a tag announces.
var bodySize = func() (sizes [largeTag + 1]uint8) {
	for tag := range sizes {
		switch {
		case tag < singleTags:
			sizes[tag] = uint8(2 + tag + 1)
		case tag == largeTag:
			sizes[tag] = largeRow
		default:
			sizes[tag] = uint8(tag - inlineTag)
		}
	}
	return sizes
}()
