package reference

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"sync"
)

// mapped reads a file that is mapped into memory, or the file itself where it
// cannot be mapped. Closing it waits for those who read.
type mapped struct {
	mu     sync.RWMutex
	file   *os.File
	bytes  []byte // nil: not mapped
	closed bool
}

// errFault says that a mapped page is not there: the file was cut short, or the
// disk does not give it.
var errFault = errors.New("page fault in a mapped file")

// newMapped takes the file over.
func newMapped(file *os.File, size int64) (*mapped, error) {
	bytes, err := mapFile(file, size)
	return &mapped{file: file, bytes: bytes}, err
}

// ReadAt is io.ReaderAt. Where a page cannot be had the system would end the
// process; it returns an error instead.
func (m *mapped) ReadAt(b []byte, at int64) (n int, err error) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	switch {
	case m.closed:
		return 0, os.ErrClosed
	case m.bytes == nil:
		return m.file.ReadAt(b, at)
	case at < 0 || at > int64(len(m.bytes)-len(b)):
		return 0, io.EOF
	}
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if fault := recover(); fault != nil {
			n, err = 0, fmt.Errorf("%w: %v", errFault, fault)
		}
	}()
	return copy(b, m.bytes[at:]), nil
}

func (m *mapped) Close() error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.closed {
		return nil
	}
	m.closed = true
	err := m.file.Close()
	if m.bytes != nil {
		err = errors.Join(unmapFile(m.bytes), err)
	}
	return err
}
