package reference

import (
	"cmp"
	"encoding/binary"
	"slices"
)

// Lookup fills out with what the index knows about a position. It allocates
// nothing once out has been used for a position as rich as this one. An error
// wraps ErrFilter, or ErrDamaged if what it would have answered from is not as it was
// written, or is the system's; out then holds no answer.
func (x *Index) Lookup(position uint64, f Filter, out *Answer) error {
	out.reset()
	if err := f.Check(); err != nil {
		return err
	}
	block := x.fence.find(position)
	if block < 0 {
		return nil
	}
	tag, body, err := x.find(block, position, out)
	if err != nil || body == nil {
		return err
	}
	q := query{x: x, position: position, sieve: f.sieve(), out: out}
	if tag < singleTags {
		q.single(tag, body)
	} else {
		q.moves(body)
	}
	if q.bad {
		out.reset()
		return cmp.Or(q.err, damaged("position %x cannot be read", position))
	}
	slices.SortFunc(out.Moves, mostPlayed)
	return nil
}

// find returns the body of a position, nil if the block does not have it.
func (x *Index) find(block int, position uint64, out *Answer) (tag byte, body []byte, err error) {
	at, size := x.fence.place(block)
	first := x.fence.first(block)
	if out.block, err = x.checked(out.block, at, size, first); err != nil {
		return 0, nil, err
	}
	l, ok := layOut(out.block)
	if !ok {
		return 0, nil, damaged("block %d cannot be read", block)
	}
	i := l.search(position - first)
	if i < 0 {
		return 0, nil, nil
	}
	tag, body = l.body(i)
	if body == nil {
		return 0, nil, damaged("block %d cannot be read", block)
	}
	if tag != largeTag {
		return tag, body, nil
	}
	at, size = int64(binary.LittleEndian.Uint64(body)), int(binary.LittleEndian.Uint32(body[8:]))
	if !x.head.inData(at, size) || size < sumSize {
		return 0, nil, damaged("position %x does not stand where it should", position)
	}
	if out.body, err = x.checked(out.body, at, size, position); err != nil {
		return 0, nil, err
	}
	return tag, out.body[sumSize:], nil
}

// checked reads a block or a large body into buf and checks its sum, which
// stands before it.
func (x *Index) checked(buf []byte, at int64, size int, position uint64) ([]byte, error) {
	buf = slices.Grow(buf[:0], size)[:size]
	if err := readAt(x.from, buf, at); err != nil {
		return buf, err
	}
	if binary.LittleEndian.Uint32(buf) != sumOf(position, buf[sumSize:]) {
		return buf, damaged("the checksum of %d bytes from %d on is wrong", size, at)
	}
	return buf, nil
}
