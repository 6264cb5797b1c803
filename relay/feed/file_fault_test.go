package feed

import (
	"errors"
	"io/fs"
	"os"
	"strings"
	"testing"
)

func TestFileMissingThenBack(t *testing.T) {
	d := newDesk(t, FileOptions{})
	d.look()
	e := d.events[0]
	if !errors.Is(e.cause, fs.ErrNotExist) || !strings.HasPrefix(e.err, "feed file "+d.path+": no such file or directory; is the path right") {
		t.Errorf("got %q", e.err)
	}
	d.heardOnly("file")
	d.beat(8)
	d.heardOnly("file", "file")
	d.write("a")
	d.beat(1)
	d.heardOnly("new a")
	os.Remove(d.path)
	d.beat(1)
	d.heardOnly("file")
	d.write("a")
	d.beat(1)
	d.heardOnly("same") // at once, although less than a second after the last report
}

func TestFileVanishesWhileRead(t *testing.T) {
	d := newDesk(t, FileOptions{})
	d.write("a")
	readAll := d.read
	d.read = func() ([]byte, error) {
		body, err := readAll()
		os.Remove(d.path)
		return body, err
	}
	d.look()
	d.heardOnly() // the half of a rename, perhaps
	d.beat(1)
	d.heardOnly("file")
}

func TestFileUnreadable(t *testing.T) {
	d := newDesk(t, FileOptions{})
	d.write("a")
	d.read = func() ([]byte, error) { return nil, &fs.PathError{Op: "open", Path: d.path, Err: fs.ErrPermission} }
	d.look()
	if want := "feed file " + d.path + ": permission denied; can this user read it?"; d.events[0].err != want {
		t.Errorf("got %q, want %q", d.events[0].err, want)
	}
	d.heardOnly("file")
}

func TestFileBecomesDirectory(t *testing.T) {
	d := newDesk(t, FileOptions{})
	if err := os.Mkdir(d.path, 0o700); err != nil {
		t.Fatal(err)
	}
	d.look()
	if !strings.Contains(d.events[0].err, d.path+" is a directory") {
		t.Errorf("got %q", d.events[0].err)
	}
	d.heardOnly("file")
	os.Remove(d.path)
	d.write("a")
	d.beat(1)
	d.heardOnly("new a")
}

func TestFileTooLarge(t *testing.T) {
	d := newDesk(t, FileOptions{MaxBytes: 10})
	d.write(strings.Repeat("x", 11))
	d.look()
	if d.reads != 0 || !strings.Contains(d.events[0].err, d.path+" is larger than 10 bytes") {
		t.Errorf("read %d times, got %q", d.reads, d.events[0].err)
	}
	d.heardOnly("too_large")
	d.write(strings.Repeat("x", 10))
	d.beat(1)
	d.heardOnly("new xxxxxxxxxx")
}

// A file that grows past the limit between the look and the read.
func TestFileGrowsTooLarge(t *testing.T) {
	d := newDesk(t, FileOptions{MaxBytes: 10})
	d.write("x")
	readAll := d.read
	d.read = func() ([]byte, error) { d.write(strings.Repeat("x", 1000)); return readAll() }
	d.look()
	d.heardOnly()
	d.beat(1)
	d.heardOnly("too_large")

	// Long while it is read, and by the next look as if nothing had been: half of it is no answer.
	d = newDesk(t, FileOptions{MaxBytes: 10})
	d.write("x")
	again := d.read
	d.read = func() ([]byte, error) {
		d.write(strings.Repeat("x", 1000))
		defer d.write("x")
		return again()
	}
	d.look()
	d.heardOnly("too_large")
}
