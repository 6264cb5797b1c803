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
	tag, body, err := x.find(block, position, out)
	if err != nil || body == nil {
		return err
	}
	s := f.sieve()
	q := query{all: x.attributes, sieve: &s, out: out}
	if tag < singleTags {
		q.single(tag, body)
	} else {
		q.moves(body)
	}
	if q.bad {
		out.reset()
		return damaged("position %x cannot be read", position)
	}
	slices.SortFunc(out.Moves, mostPlayed)
	return nil
}

func mostPlayed(a, b MoveAnswer) int {
	if a.Games != b.Games {
		return b.Games - a.Games
	}
	return int(a.Move) - int(b.Move)
}

func (out *Answer) reset() {
	*out = Answer{Moves: out.Moves[:0], examples: out.examples[:0], block: out.block, large: out.large}
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
	if !x.head.inData(at, size) || size < 4 {
		return 0, nil, damaged("position %x does not stand where it should", position)
	}
	if out.large, err = x.checked(out.large, at, size, position); err != nil {
		return 0, nil, err
	}
	return tag, out.large[4:], nil
}

// checked reads a block or a large body into buf and checks its sum, which
// stands before it.
func (x *Index) checked(buf []byte, at int64, size int, position uint64) ([]byte, error) {
	buf = slices.Grow(buf[:0], size)[:size]
	if err := readAt(x.from, buf, at); err != nil {
		return buf, err
	}
	if binary.LittleEndian.Uint32(buf) != sumOf(position, buf[4:]) {
		return buf, damaged("the checksum of %d bytes from %d on is wrong", size, at)
	}
	return buf, nil
}
