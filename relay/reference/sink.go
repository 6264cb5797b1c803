package reference

import (
	"bufio"
	"hash/crc32"
	"os"
)

const sinkBuffer = 1 << 18

// sink writes a file from front to back and sums up each section. The first
// error stays.
type sink struct {
	file    *os.File
	w       *bufio.Writer
	at      int64
	current section
	err     error
}

func newSink(file *os.File) *sink {
	return &sink{file: file, w: bufio.NewWriterSize(file, sinkBuffer)}
}

func (s *sink) write(b []byte) {
	if s.err != nil {
		return
	}
	s.current.sum = crc32.Update(s.current.sum, castagnoli, b)
	s.at += int64(len(b))
	_, s.err = s.w.Write(b)
}

// end returns the section that ends here and begins the next.
func (s *sink) end() section {
	done := s.current
	done.size = s.at - done.at
	s.current = section{at: s.at}
	return done
}
