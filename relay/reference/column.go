package reference

import (
	"encoding/binary"
	"errors"
	"hash/crc32"
	"io"
)

const chunk = 1 << 16 // bytes read or written at a time

// writeColumn writes numbers of 8 bytes each.
func writeColumn[T ~uint64](out *sink, column []T) {
	buf := make([]byte, 0, chunk)
	for _, v := range column {
		buf = binary.LittleEndian.AppendUint64(buf, uint64(v))
		if len(buf) == chunk {
			out.write(buf)
			buf = buf[:0]
		}
	}
	out.write(buf)
}

// readColumn reads a section of numbers of 8 bytes each and checks its sum.
func readColumn[T ~uint64](from io.ReaderAt, name string, s section) ([]T, error) {
	column := make([]T, 0, s.size/8)
	err := readSection(from, name, s, func(b []byte) error {
		for ; len(b) >= 8; b = b[8:] {
			column = append(column, T(binary.LittleEndian.Uint64(b)))
		}
		return nil
	})
	return column, err
}

// readSection goes through a section chunk by chunk and checks its sum. See may
// be nil.
func readSection(from io.ReaderAt, name string, s section, see func([]byte) error) error {
	buf := make([]byte, min(chunk, s.size))
	var sum uint32
	for at := int64(0); at < s.size; at += int64(len(buf)) {
		buf = buf[:min(chunk, s.size-at)]
		if err := readAt(from, buf, s.at+at); err != nil {
			return err
		}
		sum = crc32.Update(sum, castagnoli, buf)
		if see == nil {
			continue
		}
		if err := see(buf); err != nil {
			return err
		}
	}
	if sum != s.sum {
		return damaged("the checksum of section %s is wrong", name)
	}
	return nil
}

// readAt fills b. A file that has become shorter is a damaged one.
func readAt(from io.ReaderAt, b []byte, at int64) error {
	n, err := from.ReadAt(b, at)
	switch {
	case n == len(b):
		return nil
	case err == io.EOF || errors.Is(err, errFault):
		return damaged("cut short while in use")
	}
	return err
}
