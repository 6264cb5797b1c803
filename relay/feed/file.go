package feed

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// DefaultLook is how often a file is looked at when the system sends no notice: often
// enough to notice a rewrite within a second, and a look at an unchanged file is one
// call to the system.
const DefaultLook = 250 * time.Millisecond

// FileOptions say which file to watch and how. A zero value means its default.
type FileOptions struct {
	Path     string
	Every    time.Duration           // between two looks without a notice; 0: DefaultLook
	MaxBytes int64                   // largest file; 0: DefaultMaxBytes
	Check    func(body []byte) error // as in HTTPOptions; nil: none
	Now      func() time.Time        // stamps, the file's age, the once-per-second reports; nil: time.Now
}

// File watches one file. A notice from the system about the file's folder makes it
// look at once; it looks every Every all the same, because no notices come from
// network shares, nor about a file that a symbolic link names in another folder.
type File struct {
	o    FileOptions
	hang hanger
	note note
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
	switch {
	case o.Path == "":
		return nil, errors.New("feed file: no path; name the PGN file the arena's program writes")
	case o.Every < 0:
		return nil, fmt.Errorf("feed file %s: every %v is negative; give the time between two looks, or nothing for %v", o.Path, o.Every, DefaultLook)
	case o.MaxBytes < 0:
		return nil, fmt.Errorf("feed file %s: size limit %d is negative; give a number of bytes, or nothing for %d", o.Path, o.MaxBytes, DefaultMaxBytes)
	}
	if info, err := os.Stat(o.Path); err == nil && !info.Mode().IsRegular() {
		return nil, notAFile(o.Path, info)
	}
	return &File{o: o, hang: hangIn}, nil
}

// Run looks at the file until ctx ends, then returns nil. A rewrite of any kind is
// noticed at the next look; see the package's table for what gets a grace.
func (f *File) Run(ctx context.Context, to Sink) error {
	w, n := f.watch(to), newNotices(filepath.Dir(f.o.Path), f.o.Every, f.hang, &f.note)
	defer n.drop()
	for ctx.Err() == nil {
		n.renew(time.Now())
		found := w.look()
		n.wait(ctx, found.wait(f.o.Every))
	}
	return nil
}

// Note tells how the file is watched where that is worth telling: "" when notices
// come, or before Run. It may be called from any goroutine.
func (f *File) Note() string { return f.note.text() }

// watch is one Run of a File.
type watch struct {
	teller
	*glance
}

func (f *File) watch(to Sink) *watch {
	return &watch{teller{to: to, now: f.o.Now}, newGlance(f.o.Path, f.o.Every, f.o.MaxBytes, f.o.Check)}
}

// look looks once, tells the sink what there is to tell and returns what it found.
func (w *watch) look() sight {
	w.begin()
	found, f := w.see(w.started)
	switch found {
	case sightNew:
		w.answer(Answer{New: true, Body: w.body, Modified: w.met.ModTime()})
	case sightSame:
		w.same(w.met.ModTime())
	case sightBad:
		w.fail(f.reason, f.err)
	}
	return found
}

// wait is how long to wait after s for the next look without a notice.
func (s sight) wait(every time.Duration) time.Duration {
	if s == sightWait {
		return min(every, graceLook)
	}
	return every
}

func notAFile(path string, info fs.FileInfo) error {
	if info.IsDir() {
		return fmt.Errorf("feed file %s is a directory; name the PGN file in it", path)
	}
	return fmt.Errorf("feed file %s is not a regular file (%v); name the PGN file the arena's program writes", path, info.Mode().Type())
}

// unreadable says what to do about an error of the system.
func unreadable(path string, err error) error {
	wayOut := "can this user read it?"
	if errors.Is(err, fs.ErrNotExist) {
		wayOut = "is the path right, and has the arena's program written it yet?"
	}
	return fmt.Errorf("feed file %s: %w; %s", path, bare(err), wayOut)
}

// bare takes off a *fs.PathError, which repeats the path.
func bare(err error) error {
	if outer := (*fs.PathError)(nil); errors.As(err, &outer) {
		return outer.Err
	}
	return err
}
