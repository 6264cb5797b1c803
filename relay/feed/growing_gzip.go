package feed

import (
	"bufio"
	"compress/gzip"
	"io"
)

// growingUnpacked is unpacked for a stream: it reads nothing at once, and what a
// decoder knows is handed on before more must come.
func growingUnpacked(coding string, raw io.Reader) (io.Reader, error) {
	if isGzip(coding) {
		return &members{from: bufio.NewReader(raw)}, nil
	}
	return unpacked(coding, raw)
}

// members reads gzip one member at a time [RFC 1952 §2.2]. gzip.Reader by itself
// keeps the end of a member back until the next has begun, which may be the next move.
type members struct {
	from *bufio.Reader
	z    *gzip.Reader
	open bool // inside a member
}

func (m *members) Read(b []byte) (int, error) {
	for {
		if !m.open {
			if err := m.next(); err != nil {
				return 0, err
			}
		}
		n, err := m.z.Read(b)
		if err == io.EOF {
			m.open, err = false, nil
		}
		if n > 0 || err != nil {
			return n, err
		}
	}
}

// next begins a member. io.EOF says that there is none, after one at least.
func (m *members) next() error {
	var err error
	if m.z == nil {
		if m.z, err = gzip.NewReader(m.from); err == io.EOF {
			return io.ErrUnexpectedEOF // a member is the least there must be
		}
	} else {
		err = m.z.Reset(m.from)
	}
	if err != nil {
		return err
	}
	m.z.Multistream(false)
	m.open = true
	return nil
}
