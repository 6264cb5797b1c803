package journal

import (
	"encoding/binary"
	"errors"
)

// errBody says that a body is not what its kind promises.
var errBody = errors.New("its body does not make sense")

// reader takes a body apart. After the first fault it reads zeros.
type reader struct {
	rest   []byte
	failed bool
}

func (r *reader) uvarint() uint64 {
	v, n := binary.Uvarint(r.rest)
	return v * r.took(n)
}

func (r *reader) varint() int64 {
	v, n := binary.Varint(r.rest)
	return v * int64(r.took(n))
}

// took moves on by n bytes; it returns 0 if there was nothing to take.
func (r *reader) took(n int) uint64 {
	if n <= 0 || r.failed {
		r.fail()
		return 0
	}
	r.rest = r.rest[n:]
	return 1
}

// text reads a length and so many bytes.
func (r *reader) text() string {
	n := r.uvarint()
	if n > uint64(len(r.rest)) {
		r.fail()
		return ""
	}
	s := string(r.rest[:n])
	r.rest = r.rest[n:]
	return s
}

func (r *reader) fail() { r.failed, r.rest = true, nil }

// end tells whether everything was read, and nothing amiss.
func (r *reader) end() error {
	if r.failed || len(r.rest) > 0 {
		return errBody
	}
	return nil
}

func appendText(b []byte, s string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(s))), s...)
}
