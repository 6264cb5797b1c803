package engine

import (
	"bufio"
	"errors"
	"io"
)

// heard is a line, or a part of one that is too long.
type heard struct {
	text  string
	bytes int
	long  bool // the line is too long; the text is not there
	more  bool // of a line that has been told of as too long
}

// readLines sends what it reads, line by line, until the end or until done is closed.
// Of a line longer than lineMost nothing is kept.
func readLines(from io.Reader, to chan<- heard, done <-chan struct{}) {
	in := bufio.NewReaderSize(from, lineMost)
	inLong := false
	for {
		part, err := in.ReadSlice('\n')
		h := heard{bytes: len(part)}
		switch full := errors.Is(err, bufio.ErrBufferFull); {
		case full:
			h.long, h.more = !inLong, inLong
			inLong = true
		case inLong:
			h.more, inLong = true, false
		default:
			h.text = string(part)
		}
		if len(part) > 0 {
			select {
			case to <- h:
			case <-done:
				return
			}
		}
		if err != nil && !errors.Is(err, bufio.ErrBufferFull) {
			return
		}
	}
}
