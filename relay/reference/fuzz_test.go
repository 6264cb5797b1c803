package reference

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"os"
	"path/filepath"
	"testing"
)

// FuzzDamaged overwrites a part of an index, and if told so makes the checksums
// fit again, so that what reads behind them is tried, too. Whatever is read, no
// read goes wrong and no look takes more memory than the file is large.
func FuzzDamaged(f *testing.F) {
	path := filepath.Join(f.TempDir(), "tiny")
	writeTiny(f, path)
	whole, err := os.ReadFile(path)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(uint16(0), []byte{}, false)
	for at := uint16(0); int(at) < len(whole); at += 23 {
		f.Add(at, []byte{0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0x7f}, true)
	}
	f.Fuzz(func(t *testing.T, at uint16, patch []byte, seal bool) {
		b := bytes.Clone(whole)
		copy(b[min(int(at), len(b)):], patch)
		if seal {
			reseal(b)
		}
		x, err := openBytes(b)
		if err != nil {
			return
		}
		readAll(x)
		if bytes.Equal(b, whole) {
			if err := x.Verify(); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// readAll reads what can be read of an index.
func readAll(x *Index) {
	var out Answer
	for _, position := range []uint64{0, 1, 1 << 63, 1<<63 + 9, 1<<64 - 1} {
		for _, filter := range []Filter{{}, {MinRating: 2000, FromYear: 2001}, {ToYear: 2001, OnlyOverTheBoard: true}} {
			if x.Lookup(position, filter, &out) == nil && out.Games > 0 {
				_, _ = x.Game(out.Last)
			}
		}
	}
	if len(out.block)+len(out.body)+len(out.detail) > 3*int(x.size) {
		panic("more memory than the file is large")
	}
	_, _ = x.Habits("Ada Quill", 2)
	_ = x.Verify()
}

// reseal puts right checksums wherever the tables say that one stands.
func reseal(b []byte) {
	le := binary.LittleEndian
	stretch := func(at, size uint64) []byte {
		if at > uint64(len(b)) || size > uint64(len(b))-at {
			return nil
		}
		return b[at : at+size]
	}
	row := func(i int) []byte { return b[sectionsAt+24*i:] }
	table := stretch(le.Uint64(row(fenceTable)), le.Uint64(row(fenceTable)[8:]))
	for ; len(table) >= fenceRow; table = table[fenceRow:] {
		place := le.Uint64(table[8:])
		if block := stretch(place&(1<<48-1), place>>48); len(block) >= blockHead {
			le.PutUint32(block, sumOf(le.Uint64(table), block[sumSize:]))
		}
	}
	for i := range sectionCount {
		s := stretch(le.Uint64(row(i)), le.Uint64(row(i)[8:]))
		le.PutUint32(row(i)[16:], crc32.Checksum(s, castagnoli))
	}
	le.PutUint32(b[headSumAt:], crc32.Checksum(b[:headSumAt], castagnoli))
}

// FuzzBody reads any bytes as the parts of a body, as they would be read behind a
// right checksum.
func FuzzBody(f *testing.F) {
	x, err := openBytes(fileOf(f, smallWorld()))
	if err != nil {
		f.Fatal(err)
	}
	s := x.head.sections[data]
	b := make([]byte, s.size)
	if err := readAt(x.from, b, s.at); err != nil {
		f.Fatal(err)
	}
	for at := 0; at < len(b); at += len(b)/20 + 1 {
		f.Add(b[at:min(len(b), at+500)])
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		for _, filter := range []Filter{{}, {MinRating: 2300, FromYear: 2021}} {
			q := query{x: x, sieve: filter.sieve(), out: &Answer{}}
			q.moves(b)
			if len(q.out.Moves) > len(b) {
				t.Fatalf("%d moves from %d bytes", len(q.out.Moves), len(b))
			}
			var sum tally
			q.spans(&cursor{b: b}, &sum)
			q.list(&cursor{b: b}, uint64(len(b)), 1, &sum)
			for c := (cursor{b: b}); len(c.b) > 0; {
				q.group(&c, &sum)
			}
			if l, ok := layOut(append(make([]byte, blockHead), b...)); ok {
				t.Fatalf("a block of no positions: %+v", l)
			}
		}
		if len(b) < blockHead {
			return
		}
		if l, ok := layOut(b); ok {
			for i := range l.n {
				l.search(l.delta(i))
				l.body(i)
			}
		}
	})
}
