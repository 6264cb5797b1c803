package feed

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"
)

// DefaultLook is how often a file is looked at: often enough to notice a rewrite
// within a second, and a look at an unchanged file is one call to the system.
const DefaultLook = 250 * time.Millisecond

// FileOptions say which file to watch and how. A zero value means its default.
type FileOptions struct {
	Path     string
	Every    time.Duration           // between two looks; 0: DefaultLook
	MaxBytes int64                   // largest file; 0: DefaultMaxBytes
	Check    func(body []byte) error // as in HTTPOptions; nil: none
	Now      func() time.Time        // stamps, the file's age, the once-per-second reports; nil: time.Now
}

// File watches one file by looking at it, because notices from the system do not
// come from network shares. It holds nothing that changes after NewFile.
type File struct {
	o    FileOptions
	read func() ([]byte, error) // the whole file, at most a byte above the limit; tests replace it
}

var _ Source = (*File)(nil)

// NewFile returns a source that watches o.Path once Run is called. The file need not
// exist yet, but where it does it must be a file: a directory is an error.
func NewFile(o FileOptions) (*File, error) {
	o.Every = orDefault(o.Every, DefaultLook)
	o.MaxBytes = orDefault(o.MaxBytes, DefaultMaxBytes)
	if o.Now == nil {
		o.Now = time.Now
	}
	f := &File{o: o}
	f.read = f.readAll
	switch {
	case o.Path == "":
		return nil, errors.New("feed file: no path; name the PGN file the arena's program writes")
	case o.Every < 0:
		return nil, fmt.Errorf("feed file %s: every %v is negative; give the time between two looks, or nothing for %v", o.Path, o.Every, DefaultLook)
	case o.MaxBytes < 0:
		return nil, fmt.Errorf("feed file %s: size limit %d is negative; give a number of bytes, or nothing for %d", o.Path, o.MaxBytes, DefaultMaxBytes)
	}
	if info, err := os.Stat(o.Path); err == nil && !info.Mode().IsRegular() {
		return nil, f.notAFile(info)
	}
	return f, nil
}

// Run looks at the file until ctx ends, then returns nil. A rewrite of any kind is
// noticed at the next look.
func (f *File) Run(ctx context.Context, to Sink) error {
	w := &watch{File: f, to: to}
	for ctx.Err() == nil {
		w.look()
		pause(ctx, f.o.Every)
	}
	return nil
}

func (f *File) readAll() ([]byte, error) {
	file, err := os.Open(f.o.Path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(io.LimitReader(file, f.o.MaxBytes+1))
}

func (f *File) notAFile(info fs.FileInfo) error {
	if info.IsDir() {
		return fmt.Errorf("feed file %s is a directory; name the PGN file in it", f.o.Path)
	}
	return fmt.Errorf("feed file %s is not a regular file (%v); name the PGN file the arena's program writes", f.o.Path, info.Mode().Type())
}

// unreadable says what to do about an error of the system.
func (f *File) unreadable(err error) error {
	if inner := (*fs.PathError)(nil); errors.As(err, &inner) {
		err = inner.Err // the outer one repeats the path
	}
	wayOut := "can this user read it?"
	if errors.Is(err, fs.ErrNotExist) {
		wayOut = "is the path right, and has the arena's program written it yet?"
	}
	return fmt.Errorf("feed file %s: %w; %s", f.o.Path, err, wayOut)
}
