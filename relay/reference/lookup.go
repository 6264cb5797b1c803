package reference

import (
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
	l, err := x.block(block, out)
	if err != nil {
		return err
	}
	i := l.search(position - x.fence.first(block))
	if i < 0 {
		return nil
	}
	if err := x.answer(&l, i, position, f.sieve(), out); err != nil {
		out.reset()
		return err
	}
	slices.SortFunc(out.Moves, mostPlayed)
	return nil
}

// block reads a block.
func (x *Index) block(block int, out *Answer) (l layout, err error) {
	at, size := x.fence.place(block)
	if out.block, err = x.checked(out.block, at, size, x.fence.first(block)); err != nil {
		return l, err
	}
	l, ok := layOut(out.block)
	if !ok {
		return l, damaged("block %d cannot be read", block)
	}
	return l, nil
}

// answer fills out from a position of a block.
func (x *Index) answer(l *layout, i int, position uint64, s sieve, out *Answer) error {
	tag, body := l.body(i)
	if body == nil {
		return damaged("position %x is cut short", position)
	}
	q := query{x: x, position: position, sieve: s, out: out}
	switch {
	case tag < singleTags:
		q.single(tag, body)
	case tag < largeTag:
		q.moves(body)
	default:
		body, err := x.largeBody(body, position, out)
		if err != nil {
			return err
		}
		q.moves(body)
	}
	if q.err == nil && q.bad {
		q.err = damaged("position %x cannot be read", position)
	}
	return q.err
}

// largeBody reads the body that a row of a block refers to.
func (x *Index) largeBody(row []byte, position uint64, out *Answer) (body []byte, err error) {
	at, size := int64(binary.LittleEndian.Uint64(row)), int(binary.LittleEndian.Uint32(row[8:]))
	if size < sumSize || size > bodyMost || !x.head.inData(at, size) {
		return nil, damaged("position %x does not stand where it should", position)
	}
	if out.body, err = x.checked(out.body, at, size, position); err != nil {
		return nil, err
	}
	return out.body[sumSize:], nil
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
