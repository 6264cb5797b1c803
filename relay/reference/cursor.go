package reference

import "encoding/binary"

// cursor reads numbers off bytes. Past the end, or past a number that is too
// long, it is bad and gives zeros.
type cursor struct {
	b   []byte
	bad bool
}

func (c *cursor) uvarint() uint64 {
	if len(c.b) > 0 && c.b[0] < 0x80 {
		v := c.b[0]
		c.b = c.b[1:]
		return uint64(v)
	}
	return c.long()
}

func (c *cursor) long() uint64 {
	v, n := binary.Uvarint(c.b)
	if n <= 0 {
		c.fail()
		return 0
	}
	c.b = c.b[n:]
	return v
}

func (c *cursor) byte() byte {
	if len(c.b) == 0 {
		c.fail()
		return 0
	}
	v := c.b[0]
	c.b = c.b[1:]
	return v
}

func (c *cursor) uint16() uint16 {
	b := c.take(2)
	if len(b) < 2 {
		return 0
	}
	return binary.LittleEndian.Uint16(b)
}

func (c *cursor) uint32() uint32 {
	b := c.take(4)
	if len(b) < 4 {
		return 0
	}
	return binary.LittleEndian.Uint32(b)
}

// take returns the next n bytes, or none if there are fewer.
func (c *cursor) take(n uint64) []byte {
	if n > uint64(len(c.b)) {
		c.fail()
		return nil
	}
	b := c.b[:n]
	c.b = c.b[n:]
	return b
}

func (c *cursor) fail() { c.b, c.bad = nil, true }
