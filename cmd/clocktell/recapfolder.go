package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"

	"clocktell/relay/recap"
)

// recapNames are the names of files and folders that a recap writes, and of files that were
// being written when one was killed. Whoever writes others
// beside them adds them here, or a second recap will refuse the folder.
var recapNames = regexp.MustCompile(`^(index\.html|all\.pgn|board\d+(-game\d+)?(\.html|\.pgn|/|/tell-line\.(svg|png)|/[A-F]\.(svg|png))?|cues|cues/(chapters|cues)(-[a-z0-9.-]+)?\.(vtt|csv|edl))(\.part)?$`)

// recapFolder is where a recap goes.
type recapFolder struct {
	dir   string
	old   []string // files of an earlier recap
	wrote []string
	bytes int
}

// newRecapFolder makes a folder, or takes one that holds nothing but an earlier recap.
func newRecapFolder(dir string) (*recapFolder, error) {
	if info, err := os.Stat(dir); err == nil && !info.IsDir() {
		return nil, fmt.Errorf("recap: %s is a file; give a folder", dir)
	}
	if real, err := filepath.EvalSymlinks(dir); err == nil {
		dir = real // WalkDir does not follow links
	}
	f := &recapFolder{dir: dir}
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil || name == "." && entry.IsDir() {
			return err
		}
		name = filepath.ToSlash(name)
		if !recapNames.MatchString(name) || !entry.IsDir() && !entry.Type().IsRegular() {
			return fmt.Errorf("%s holds %s, which no recap has written; give an empty folder, or one that does not exist yet", dir, name)
		}
		if !entry.IsDir() {
			f.old = append(f.old, name)
		}
		return nil
	})
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("recap: %w", err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("recap: %w", err)
	}
	return f, nil
}

func (f *recapFolder) path(name string) string { return filepath.Join(f.dir, filepath.FromSlash(name)) }

// writeUntil writes as write does, and nothing behind the end of ctx.
func (f *recapFolder) writeUntil(ctx context.Context) recap.Sink {
	return func(name string, content []byte) error {
		if ctx.Err() != nil {
			return errInterrupted
		}
		return f.write(name, content)
	}
}

// write puts a file in its place whole: whoever looks finds the old one or the new one.
func (f *recapFolder) write(name string, content []byte) error {
	if !recapNames.MatchString(name) {
		return fmt.Errorf("%q is no name of a recap's file", name)
	}
	path := f.path(name)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	part := path + ".part"
	if err := os.WriteFile(part, content, 0o644); err != nil {
		return errors.Join(err, os.Remove(part))
	}
	if err := os.Rename(part, path); err != nil {
		return errors.Join(err, os.Remove(part))
	}
	f.wrote, f.bytes = append(f.wrote, name), f.bytes+len(content)
	return nil
}

// finish removes what an earlier recap had and this one has not.
func (f *recapFolder) finish() error {
	var errs []error
	for _, name := range f.old {
		if slices.Contains(f.wrote, name) {
			continue
		}
		if err := os.Remove(f.path(name)); !errors.Is(err, fs.ErrNotExist) { // a part may have become a file
			errs = append(errs, err)
		}
	}
	return errors.Join(errs...)
}
