package reference

import (
	"errors"
	"fmt"
	"os"
	"runtime/debug"
	"sync"

	"golang.org/x/exp/mmap"
)

// mapped reads a file that is mapped into memory. Closing it waits for those who
// read.
type mapped struct {
	mu   sync.RWMutex
	file *mmap.ReaderAt // nil once closed
}

// errFault says that a mapped page is not there: the file was cut short, or the
// disk does not give it.
var errFault = errors.New("page fault in a mapped file")

// ReadAt is io.ReaderAt. Where a page cannot be had the system would end the
// process; it returns an error instead.
func (m *mapped) ReadAt(b []byte, at int64) (n int, err error) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	if m.file == nil {
		return 0, os.ErrClosed
	}
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if fault := recover(); fault != nil {
			n, err = 0, fmt.Errorf("%w: %v", errFault, fault)
		}
	}()
	return m.file.ReadAt(b, at)
}

func (m *mapped) Close() error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.file == nil {
		return nil
	}
	err := m.file.Close()
	m.file = nil
	return err
}
