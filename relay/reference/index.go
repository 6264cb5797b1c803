package reference

import (
	"fmt"
	"io"
	"os"
)

// Index is an open file. It is safe for many goroutines, Close included.
type Index struct {
	whole io.ReaderAt // for reading on and on
	from  io.ReaderAt // for looking here and there
	close io.Closer
	size  int64

	head       *head
	attributes []attributes
	fence      fence
	habits     habitIndex
}

// Open opens an index read-only and checks its head, its size, and the checksum
// of all but the data; each block of data is checked when it is looked at. The
// file may be replaced by another while it is open, by renaming. An error wraps
// ErrNotIndex, ErrUnfinished, ErrVersion or ErrDamaged, or is the system's.
func Open(path string) (*Index, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() { // not opened: opening a pipe waits for who writes to it
		return nil, fmt.Errorf("reference %s: %w: it is no file; name a file that clocktell reference build has written", path, ErrNotIndex)
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	x, err := openFile(file)
	if err != nil {
		file.Close()
		return nil, fmt.Errorf("reference %s: %w", path, err)
	}
	return x, nil
}

func openFile(file *os.File) (*Index, error) {
	info, err := file.Stat()
	if err != nil {
		return nil, err
	}
	x, err := open(file, info.Size())
	if err != nil {
		return nil, err
	}
	m, err := newMapped(file, x.size)
	if err != nil {
		return nil, err
	}
	x.from, x.close = m, m
	return x, nil
}

// open reads an index and checks all but its data.
func open(from io.ReaderAt, size int64) (*Index, error) {
	b := make([]byte, min(headSize, size))
	if err := readAt(from, b, 0); err != nil {
		return nil, err
	}
	h, err := decodeHead(b, size)
	if err != nil {
		return nil, err
	}
	x := &Index{whole: from, from: from, size: size, head: h}
	for _, s := range []int{names, texts} {
		if err := readSection(from, sectionNames[s], h.sections[s], nil); err != nil {
			return nil, err
		}
	}
	if x.attributes, err = readColumn[attributes](from, sectionNames[attributeColumn], h.sections[attributeColumn]); err != nil {
		return nil, err
	}
	if x.fence, err = openFence(from, h); err != nil {
		return nil, err
	}
	x.habits, err = openHabits(from, h.sections[habitTable])
	return x, err
}

// Close closes the file once lookups under way are done; later ones fail with
// os.ErrClosed.
func (x *Index) Close() error { return x.close.Close() }

// Games returns the number of games.
func (x *Index) Games() int { return int(x.head.games) }

// Positions returns the number of different positions.
func (x *Index) Positions() int { return int(x.head.positions) }

// Occurrences returns how often a game reached a position.
func (x *Index) Occurrences() int { return int(x.head.occurrences) }

// Depth returns the number of plies up to which games were followed.
func (x *Index) Depth() int { return x.head.Depth }

// Size returns the size of the file in bytes.
func (x *Index) Size() int64 { return x.size }

// Head returns what the builder said about the index. A caller whose positions
// are not hashed as Head.Hashing says must not use the index: it would find nothing.
func (x *Index) Head() Head { return x.head.Head }
