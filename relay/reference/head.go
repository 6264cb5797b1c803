package reference

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"

	"clocktell/relay/clock"
)

const (
	// A byte with the high bit set, and both kinds of line end: a copy made as text shows at once.
	magic    = "\x89ctref\r\n"
	version  = 1
	headSize = 256

	sectionsAt = 64
	headSumAt  = headSize - 4
)

// The sections, in the order of the file.
const (
	names = iota
	attributeColumn
	texts
	data
	fenceTable
	habitTable
	sectionCount
)

var sectionNames = [sectionCount]string{"names", "attributes", "texts", "data", "fence", "habits"}

// section is a stretch of the file; the sections follow each other without gaps.
type section struct {
	at, size int64
	sum      uint32
}

// head is the first headSize bytes of a file.
type head struct {
	Head
	games, positions, occurrences uint64
	sections                      [sectionCount]section
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func (h *head) encode() []byte {
	b := make([]byte, headSize)
	le := binary.LittleEndian
	copy(b, magic)
	le.PutUint32(b[8:], version)
	le.PutUint32(b[12:], uint32(h.Depth))
	le.PutUint64(b[16:], h.Hashing)
	le.PutUint64(b[24:], h.games)
	le.PutUint64(b[32:], h.positions)
	le.PutUint64(b[40:], h.occurrences)
	le.PutUint16(b[48:], uint16(h.Filter.MinRating))
	le.PutUint16(b[50:], uint16(h.Filter.FromYear))
	le.PutUint16(b[52:], uint16(h.Filter.ToYear))
	if h.Filter.OnlyOverTheBoard {
		b[54] = 1
	}
	b[55] = byte(h.Filter.Class)
	for i, s := range h.sections {
		row := b[sectionsAt+24*i:]
		le.PutUint64(row, uint64(s.at))
		le.PutUint64(row[8:], uint64(s.size))
		le.PutUint32(row[16:], s.sum)
	}
	le.PutUint32(b[headSumAt:], crc32.Checksum(b[:headSumAt], castagnoli))
	return b
}

// decodeHead reads the head of a file of so many bytes, and refuses a file that
// is not exactly what the head says.
func decodeHead(b []byte, size int64) (*head, error) {
	le := binary.LittleEndian
	switch {
	case len(b) == headSize && bytes.Equal(b, make([]byte, headSize)):
		return nil, fmt.Errorf("%w: the build was interrupted; build it again", ErrUnfinished)
	case !bytes.HasPrefix(b, []byte(magic)):
		return nil, fmt.Errorf("%w: it begins with %.12q; name a file that clocktell reference build has written", ErrNotIndex, b[:min(len(b), 12)])
	case len(b) < headSize:
		return nil, damaged("cut short within its first %d bytes", headSize)
	case le.Uint32(b[8:]) != version:
		return nil, fmt.Errorf("%w: it has format %d, this program reads format %d; build it again with this program", ErrVersion, le.Uint32(b[8:]), version)
	case le.Uint32(b[headSumAt:]) != crc32.Checksum(b[:headSumAt], castagnoli):
		return nil, damaged("the checksum of its head is wrong")
	}
	h := &head{games: le.Uint64(b[24:]), positions: le.Uint64(b[32:]), occurrences: le.Uint64(b[40:])}
	h.Depth, h.Hashing = int(le.Uint32(b[12:])), le.Uint64(b[16:])
	h.Filter = Filter{MinRating: int(le.Uint16(b[48:])), FromYear: int(le.Uint16(b[50:])), ToYear: int(le.Uint16(b[52:])),
		OnlyOverTheBoard: b[54] == 1, Class: clock.Class(b[55])}
	for i := range h.sections {
		row := b[sectionsAt+24*i:]
		h.sections[i] = section{at: int64(le.Uint64(row)), size: int64(le.Uint64(row[8:])), sum: le.Uint32(row[16:])}
	}
	return h, h.check(size)
}

// check holds the sections against each other and against the file's size.
func (h *head) check(size int64) error {
	at := int64(headSize)
	for i, s := range h.sections {
		if s.at != at || s.size < 0 || s.size > 1<<62-at {
			return damaged("section %s does not stand where it should", sectionNames[i])
		}
		at += s.size
	}
	switch {
	case size < at:
		return damaged("cut short, %d bytes of %d", size, at)
	case size > at:
		return damaged("%d bytes too long", size-at)
	case h.games > gamesMost || uint64(h.sections[names].size) != h.games*nameRow || uint64(h.sections[attributeColumn].size) != h.games*8:
		return damaged("tables of %d games have other sizes", h.games)
	case h.sections[fenceTable].size%fenceRow != 0:
		return damaged("the fence is not whole")
	}
	return nil
}
