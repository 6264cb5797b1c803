package reference

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
)

// Commit completes the index, syncs it and gives it its name. When Commit
// returns without an error the index is on the disk; with one, no index is at
// the path but what was there before.
func (w *Writer) Commit() error {
	if w.phase == over {
		return os.ErrClosed
	}
	err := w.enter(over)
	if err == nil {
		err = w.complete()
	}
	if err != nil {
		return errors.Join(err, w.discard())
	}
	if err := os.Rename(w.out.file.Name(), w.path); err != nil {
		return errors.Join(err, os.Remove(w.out.file.Name()))
	}
	return syncFolder(filepath.Dir(w.path))
}

// complete writes what is in memory, the head last, and syncs before and after
// it: a head that can be read stands before a whole file.
func (w *Writer) complete() error {
	if err := w.out.w.Flush(); err != nil {
		return err
	}
	if err := w.out.file.Sync(); err != nil {
		return err
	}
	if _, err := w.out.file.WriteAt(w.head.encode(), 0); err != nil {
		return err
	}
	if err := w.out.file.Sync(); err != nil {
		return err
	}
	return w.out.file.Close()
}

// Abort gives the index up. After Commit it does nothing.
func (w *Writer) Abort() error {
	if w.phase == over {
		return nil
	}
	w.phase = over
	return w.discard()
}

func (w *Writer) discard() error {
	w.out.file.Close()
	err := os.Remove(w.out.file.Name())
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	return err
}

// syncFolder makes a new name in a folder durable. Windows has no such thing.
func syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	folder, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(folder.Sync(), folder.Close())
}
