package feed

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// told is a Sink that hands on what it hears, until its context ends.
type told struct {
	ctx    context.Context
	events chan event
}

func (s told) Answered(a Answer) { s.tell(event{isNew: a.New, body: string(a.Body)}) }
func (s told) Failed(f Fault)    { s.tell(event{reason: f.Reason, err: f.Err.Error()}) }

func (s told) tell(e event) {
	select {
	case s.events <- e:
	case <-s.ctx.Done():
	}
}

// notified runs a source in real time beside use, which gets a function that waits for an event.
func notified(t *testing.T, s Source, use func(next func() string)) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute) // that none comes is a failure
	defer cancel()
	to, ran := told{ctx, make(chan event)}, make(chan error)
	go func() { ran <- s.Run(ctx, to) }()
	use(func() string {
		t.Helper()
		select {
		case e := <-to.events:
			return e.short()
		case <-ctx.Done():
			t.Error("nothing was heard")
			return ""
		}
	})
	cancel()
	if err := <-ran; err != nil {
		t.Errorf("Run returned %v, want nil", err)
	}
}

// rewrites are ways a file comes to hold another content. None is half done at any moment but
// those that say so.
var rewrites = []struct {
	name string
	do   func(path, content string) error
}{
	{"in place", overwrite},
	{"renamed over", func(path, content string) error {
		if err := overwrite(path+".new", content); err != nil {
			return err
		}
		return os.Rename(path+".new", path)
	}},
	{"truncated and written", func(path, content string) error { return os.WriteFile(path, []byte(content), 0o600) }},
	{"deleted and made again", func(path, content string) error {
		if err := os.Remove(path); err != nil {
			return err
		}
		return os.WriteFile(path, []byte(content), 0o600)
	}},
	{"a symbolic link swapped", func(path, content string) error {
		if err := overwrite(path+".2", content); err != nil {
			return err
		}
		if err := os.Symlink(filepath.Base(path)+".2", path+".link"); err != nil {
			return err
		}
		return os.Rename(path+".link", path)
	}},
}

// overwrite writes content over what is there, with no moment of nothing between.
func overwrite(path, content string) error {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	if _, err := f.WriteString(content); err != nil {
		return err
	}
	return f.Close()
}

// On a real file, with the timer out of the way: what is heard is heard by notice. Only what is
// shorter waits for the grace, a second.
func TestFileIsNotified(t *testing.T) {
	for _, rewrite := range rewrites {
		t.Run(rewrite.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "games.pgn")
			if err := overwrite(path, "a"); err != nil {
				t.Fatal(err)
			}
			f, err := NewFile(FileOptions{Path: path, Every: 24 * time.Hour})
			if err != nil {
				t.Fatal(err)
			}
			notified(t, f, func(next func() string) {
				if got := next(); got != "new a" {
					t.Errorf("first %q", got)
				}
				for _, content := range []string{"b", "bc"} {
					if err := rewrite.do(path, content); err != nil {
						t.Fatal(err)
					}
					got := next()
					for got == "file" || got == "same" { // between the two halves of a rewrite
						got = next()
					}
					if got != "new "+content {
						t.Errorf("then %q, want %q", got, "new "+content)
					}
				}
				if note := f.Note(); note != "" {
					t.Errorf("note %q", note)
				}
			})
		})
	}
}

func TestFileAppendedAndTruncatedIsNotified(t *testing.T) {
	path := filepath.Join(t.TempDir(), "games.pgn")
	f, err := NewFile(FileOptions{Path: path, Every: 24 * time.Hour})
	if err != nil {
		t.Fatal(err)
	}
	notified(t, f, func(next func() string) {
		want := func(want string) {
			t.Helper()
			got := next()
			for got == "same" {
				got = next()
			}
			if got != want {
				t.Errorf("got %q, want %q", got, want)
			}
		}
		want("file") // not there yet
		file, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		want("new ")
		for _, text := range []string{"a", "ab", "abc"} {
			file.WriteString(text[len(text)-1:])
			want("new " + text)
		}
		if err := file.Truncate(1); err != nil {
			t.Fatal(err)
		}
		want("new a")
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
		want("file")
	})
}

func TestFolderIsNotified(t *testing.T) {
	dir := t.TempDir()
	notEmpty := func(body []byte) error { // a file is made first and written then
		if len(body) == 0 {
			return errors.New("empty")
		}
		return nil
	}
	f, err := NewFolder(FolderOptions{Path: dir, Every: 24 * time.Hour, Check: notEmpty})
	if err != nil {
		t.Fatal(err)
	}
	notified(t, f, func(next func() string) {
		want := func(want string) {
			t.Helper()
			got := next()
			for got == "same" {
				got = next()
			}
			if got != want {
				t.Errorf("got %q, want %q", got, want)
			}
		}
		want("file")
		for _, row := range []struct{ name, content, want string }{
			{"g10.pgn", "ten", "new ten"},
			{"g2.PGN", "two", "new two\nten"},
			{"g2.PGN", "two2", "new two2\nten"},
		} {
			if err := overwrite(filepath.Join(dir, row.name), row.content); err != nil {
				t.Fatal(err)
			}
			want(row.want)
		}
		if err := os.Rename(filepath.Join(dir, "g10.pgn"), filepath.Join(dir, "old")); err != nil {
			t.Fatal(err)
		}
		want("new two2") // once it is clear that it does not come back
	})
}
