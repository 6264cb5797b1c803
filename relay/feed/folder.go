package feed

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"
	"time"
)

// DefaultMaxFiles is how many files of a folder are read: more boards than any hall
// has, and a look at each of them still takes only milliseconds on a local disk.
const DefaultMaxFiles = 1000

// FolderOptions say which folder to watch and how. A zero value means its default.
type FolderOptions struct {
	Path     string
	Every    time.Duration           // between two looks without a notice; 0: DefaultLook
	MaxBytes int64                   // all files together; 0: DefaultMaxBytes
	MaxFiles int                     // further ones are left out; 0: DefaultMaxFiles
	Check    func(body []byte) error // as in HTTPOptions, of each file by itself; nil: none
	Now      func() time.Time        // as in FileOptions; nil: time.Now
}

// Folder watches all files of a folder whose name ends in .pgn, in any case, and
// delivers them as one content: sorted by name as people count, a newline between.
// Left out are names that begin with a dot, which some systems put beside each
// file, and whatever lies in folders below.
type Folder struct {
	o    FolderOptions
	hang hanger
	note note
}

var _ Source = (*Folder)(nil)

// NewFolder returns a source that watches o.Path once Run is called. The folder need
// not exist yet, but a file of that name is an error.
func NewFolder(o FolderOptions) (*Folder, error) {
	o.Every = orDefault(o.Every, DefaultLook)
	o.MaxBytes = orDefault(o.MaxBytes, DefaultMaxBytes)
	if o.MaxFiles == 0 {
		o.MaxFiles = DefaultMaxFiles
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	switch {
	case o.Path == "":
		return nil, errors.New("feed folder: no path; name the folder the arena's program writes PGN files to")
	case o.Every < 0:
		return nil, fmt.Errorf("feed folder %s: every %v is negative; give the time between two looks, or nothing for %v", o.Path, o.Every, DefaultLook)
	case o.MaxBytes < 0:
		return nil, fmt.Errorf("feed folder %s: size limit %d is negative; give a number of bytes, or nothing for %d", o.Path, o.MaxBytes, DefaultMaxBytes)
	case o.MaxFiles < 0:
		return nil, fmt.Errorf("feed folder %s: limit of %d files is negative; give a number of files, or nothing for %d", o.Path, o.MaxFiles, DefaultMaxFiles)
	}
	if info, err := os.Stat(o.Path); err == nil && !info.IsDir() {
		return nil, fmt.Errorf("feed folder %s is not a folder; name the folder, or watch it as a file", o.Path)
	}
	return &Folder{o: o, hang: hangIn}, nil
}

// Run looks at the folder until ctx ends, then returns nil.
func (f *Folder) Run(ctx context.Context, to Sink) error {
	s, n := f.survey(until{ctx, to}), newNotices(f.o.Path, f.o.Every, f.hang, &f.note)
	defer n.drop()
	for ctx.Err() == nil {
		n.renew(time.Now())
		found := s.look()
		n.wait(ctx, found.wait(f.o.Every))
	}
	return nil
}

// Note is as [File.Note].
func (f *Folder) Note() string { return f.note.text() }

// names are the files to read, sorted, at most MaxFiles of all there are.
func (f *Folder) names() (names []string, all int, err error) {
	entries, err := os.ReadDir(f.o.Path)
	if err != nil {
		return nil, 0, f.unreadable(err)
	}
	for _, entry := range entries {
		if name := entry.Name(); isPGN(name) && f.mayBeFile(entry) {
			names = append(names, name)
		}
	}
	slices.SortFunc(names, natural)
	all = len(names)
	return names[:min(all, f.o.MaxFiles)], all, nil
}

func isPGN(name string) bool {
	return !strings.HasPrefix(name, ".") && strings.HasSuffix(strings.ToLower(name), ".pgn")
}

// mayBeFile tells a regular file, or a link that names one or nothing.
func (f *Folder) mayBeFile(entry fs.DirEntry) bool {
	if entry.Type()&fs.ModeSymlink == 0 {
		return entry.Type().IsRegular()
	}
	info, err := os.Stat(f.path(entry.Name()))
	return err != nil || info.Mode().IsRegular()
}

func (f *Folder) path(name string) string { return f.o.Path + string(os.PathSeparator) + name }

func (f *Folder) unreadable(err error) error {
	wayOut := "can this user read it?"
	if errors.Is(err, fs.ErrNotExist) {
		wayOut = "is the path right, and has the arena's program made it yet?"
	}
	return fmt.Errorf("feed folder %s: %w; %s", f.o.Path, bare(err), wayOut)
}
