package reference

import "encoding/binary"

// layout is a block taken apart.
type layout struct {
	n, width  int
	positions []byte // n of them, each width bytes, less the first
	tags      []byte
	bodies    []byte
	padded    []byte // from positions to the end of the block
}

func layOut(block []byte) (l layout, ok bool) {
	l.n, l.width = int(block[4]), int(block[5])
	rest := block[blockHead:]
	if l.n == 0 || l.n > blockMost || l.width == 0 || l.width > 8 || len(rest) < l.n*(l.width+1) {
		return l, false
	}
	l.padded = rest
	l.positions, rest = rest[:l.n*l.width], rest[l.n*l.width:]
	l.tags, l.bodies = rest[:l.n], rest[l.n:]
	return l, true
}

// delta returns the distance of a position from the first.
func (l *layout) delta(i int) uint64 {
	at := i * l.width
	if at+8 <= len(l.padded) {
		return binary.LittleEndian.Uint64(l.padded[at:]) & (1<<(8*uint(l.width)) - 1)
	}
	var row [8]byte
	copy(row[:], l.positions[at:at+l.width])
	return binary.LittleEndian.Uint64(row[:])
}

// search returns which position is so far from the first, -1 if none is.
func (l *layout) search(delta uint64) int {
	low, high := 0, l.n
	for low < high {
		middle := (low + high) / 2
		if l.delta(middle) < delta {
			low = middle + 1
		} else {
			high = middle
		}
	}
	if low < l.n && l.delta(low) == delta {
		return low
	}
	return -1
}

// body returns the tag and the body of a position, nil if it is not within the block.
func (l *layout) body(i int) (byte, []byte) {
	at := 0
	for _, tag := range l.tags[:i] {
		at += int(bodySize[tag])
	}
	tag := l.tags[i]
	end := at + int(bodySize[tag])
	if end > len(l.bodies) {
		return tag, nil
	}
	return tag, l.bodies[at:end]
}
