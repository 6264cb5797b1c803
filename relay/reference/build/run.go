package build

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"os"
)

// recordBytes is a spilled record: position, move and game, little-endian.
const recordBytes = 8 + 2 + 4

// spillBuffer is what is written at once, in bytes.
const spillBuffer = 256 << 10

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// spilled is a file of the work directory, as the manifest has it.
type spilled struct {
	Name  string
	Bytes int64
	Sum   uint32 // CRC-32C
}

// is reports whether text is what was written to the file.
func (s spilled) is(text []byte) bool {
	return int64(len(text)) == s.Bytes && crc32.Checksum(text, castagnoli) == s.Sum
}

// spillFile writes a file of the work directory.
type spillFile struct {
	f   *os.File
	w   *bufio.Writer
	out spilled
}

func createSpill(path, name string) (*spillFile, error) {
	f, err := os.Create(path)
	if err != nil {
		return nil, err
	}
	s := &spillFile{f: f, out: spilled{Name: name}}
	s.w = bufio.NewWriterSize(s, spillBuffer)
	return s, nil
}

// Write is what the buffer is emptied into.
func (s *spillFile) Write(b []byte) (int, error) {
	n, err := s.f.Write(b)
	s.out.Bytes += int64(n)
	s.out.Sum = crc32.Update(s.out.Sum, castagnoli, b[:n])
	return n, err
}

func (s *spillFile) record(r record) error {
	b := s.w.AvailableBuffer()
	b = binary.LittleEndian.AppendUint64(b, r.pos)
	b = binary.LittleEndian.AppendUint16(b, uint16(r.rest>>32))
	b = binary.LittleEndian.AppendUint32(b, uint32(r.rest))
	_, err := s.w.Write(b)
	return err
}

// end brings the file to the disk.
func (s *spillFile) end() (spilled, error) {
	if err := s.w.Flush(); err != nil {
		return spilled{}, errors.Join(err, s.f.Close())
	}
	if err := s.f.Sync(); err != nil {
		return spilled{}, errors.Join(err, s.f.Close())
	}
	return s.out, s.f.Close()
}

// writeRun spills sorted records.
func writeRun(path, name string, list []record) (spilled, error) {
	s, err := createSpill(path, name)
	if err != nil {
		return spilled{}, err
	}
	for _, r := range list {
		if err := s.record(r); err != nil {
			return spilled{}, errors.Join(err, s.f.Close())
		}
	}
	return s.end()
}

// errDamaged says that the work directory is not as it was left.
var errDamaged = errors.New("it is not as it was written: build again with --restart")

// runReader reads a run and looks whether it is as it was written.
type runReader struct {
	head record // the next one, unless done
	done bool

	f    *os.File
	file spilled
	buf  []byte // of whole records
	rest []byte // of buf, not read yet
	left int64  // bytes of the file
	sum  uint32
}

// openRun opens a run and reads its first record. The size of the buffer is in bytes.
func openRun(path string, file spilled, buffer int) (*runReader, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	r := &runReader{f: f, file: file, left: file.Bytes, buf: make([]byte, max(1, buffer/recordBytes)*recordBytes)}
	if err := r.next(); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return r, nil
}

// next reads the next record into head.
func (r *runReader) next() error {
	if len(r.rest) == 0 {
		if r.left == 0 {
			r.done = true
			if r.sum != r.file.Sum {
				return fmt.Errorf("%s: %w", r.f.Name(), errDamaged)
			}
			return nil
		}
		if err := r.fill(); err != nil {
			return err
		}
	}
	b := r.rest[:recordBytes]
	r.head = record{binary.LittleEndian.Uint64(b), uint64(binary.LittleEndian.Uint16(b[8:]))<<32 | uint64(binary.LittleEndian.Uint32(b[10:]))}
	r.rest = r.rest[recordBytes:]
	return nil
}

func (r *runReader) fill() error {
	n := min(int64(len(r.buf)), r.left)
	_, err := io.ReadFull(r.f, r.buf[:n])
	if err == io.EOF || err == io.ErrUnexpectedEOF || n%recordBytes != 0 {
		return fmt.Errorf("%s: %w", r.f.Name(), errDamaged)
	}
	if err != nil {
		return err
	}
	r.left -= n
	r.sum = crc32.Update(r.sum, castagnoli, r.buf[:n])
	r.rest = r.buf[:n]
	return nil
}

func (r *runReader) close() error { return r.f.Close() }
