package journal

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
)

// TestRead reads a show while it goes on, by its file and by its folder.
func TestRead(t *testing.T) {
	dir := t.TempDir()
	j := mustOpen(t, options(dir))
	r, err := Read(context.Background(), j.Path())
	if err != nil {
		t.Fatal(err)
	}
	if r.Title != "Test" || r.Began != start || r.First != start || r.Last != start {
		t.Errorf("%+v of an empty show", r)
	}
	through(t, j, failure(1), packet(2), answer(3), answer(4))
	wantEvents(t, read(t, r.Records()), []relay.Event{failure(1), packet(2), answer(3), answer(4)})
	r.Close()
	if r, err = Read(context.Background(), dir); err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if r.File != j.Path() || r.First != failure(1).When() || r.Last != answer(4).When() {
		t.Errorf("%+v", r)
	}
	for range r.Records() { // a reader that stops in the middle holds nothing up
		break
	}
	through(t, j, failure(5))
	mustClose(t, j)
	wantEvents(t, read(t, r.Records()), []relay.Event{failure(1), packet(2), answer(3), answer(4), failure(5)})
}

// TestReadByAnotherProcess reads in this process what another one is writing.
func TestReadByAnotherProcess(t *testing.T) {
	dir := t.TempDir()
	c := childCommand(t, "write", dir)
	pipe, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	defer c.Wait()
	defer c.Process.Kill()
	for said := 0; said < 2000; {
		n, err := pipe.Read(make([]byte, 100))
		if said += n; err != nil {
			t.Fatal(err)
		}
	}
	r, err := Read(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	first, second := len(read(t, r.Records())), len(read(t, r.Records()))
	if first < 100 || second < first {
		t.Errorf("%d events, then %d", first, second)
	}
}

// TestReadOnlyFolder reads where nothing can be written beside the file. Root may
// write everywhere, so a link to nowhere is in the place of the -shm.
func TestReadOnlyFolder(t *testing.T) {
	dir := t.TempDir()
	j := mustOpen(t, options(dir))
	through(t, j, failures(0, 5)...)
	mustClose(t, j)
	if err := os.Symlink(filepath.Join(dir, "no", "where"), j.Path()+"-shm"); err != nil {
		t.Fatal(err)
	}
	r, err := Read(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	wantEvents(t, read(t, r.Records()), failures(0, 5))
}

// TestReadRefuses gives what is no recording.
func TestReadRefuses(t *testing.T) {
	dir := t.TempDir()
	f, _ := closedShow(t)
	_, whole := f.one(t, nameSuffix)
	put := func(name string, bytes []byte) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, bytes, 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	other := filepath.Join(dir, "other.db")
	execute(t, other, "CREATE TABLE t(x)")
	for path, want := range map[string]error{
		filepath.Join(dir, "missing.db"): fs.ErrNotExist,
		t.TempDir():                      ErrNoShow,
		put("text", []byte(strings.Repeat("This is a text.\n", 1000))): ErrNotJournal,
		put("empty", nil): ErrNotJournal,
		other:             ErrNotJournal,
	} {
		if _, err := Read(context.Background(), path); !errors.Is(err, want) || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: %v, want %v", path, err, want)
		}
	}
	if _, err := Read(context.Background(), put("cut.db", whole[:len(whole)/2])); err == nil || !strings.Contains(err.Error(), "damaged") {
		t.Errorf("a damaged one: %v", err)
	}
}

// execute runs statements on a file.
func execute(t *testing.T, path string, statements ...string) {
	t.Helper()
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	for _, s := range statements {
		if _, err := db.Exec(s); err != nil {
			t.Fatal(err)
		}
	}
}

// TestNewerVersion gives a file as a later version would write it. A version
// number that is written once only is damage.
func TestNewerVersion(t *testing.T) {
	dir := t.TempDir()
	j := mustOpen(t, options(dir))
	through(t, j, failure(1))
	mustClose(t, j)
	version, meta := fmt.Sprintf("PRAGMA user_version = %d", schemaVersion+1), fmt.Sprintf("UPDATE meta SET value = '%d' WHERE key = 'schema'", schemaVersion+1)
	execute(t, j.Path(), version, meta)
	if _, err := Open(context.Background(), options(dir)); !errors.Is(err, ErrNewer) {
		t.Errorf("opened: %v", err)
	}
	if _, err := Read(context.Background(), dir); !errors.Is(err, ErrNewer) {
		t.Errorf("read: %v", err)
	}
	o := options(dir)
	o.Fresh, o.Now = true, (&clockwork{start.Add(time.Hour)}).Now
	mustClose(t, mustOpen(t, o)) // a fresh show does not mind

	execute(t, j.Path(), fmt.Sprintf("PRAGMA user_version = %d", schemaVersion))
	if err := os.Remove(filepath.Join(dir, "show-20261017T160000Z.db")); err != nil {
		t.Fatal(err)
	}
	j = mustOpen(t, options(dir))
	wantEvents(t, read(t, j.Records()), failures(1, 2))
	if j.Cut() == "" {
		t.Error("nothing is said about the description")
	}
}

// TestTitleFollows opens a show under another title and plan, and then under none.
func TestTitleFollows(t *testing.T) {
	dir := t.TempDir()
	for _, o := range []Options{{Title: "A title", Plan: "{}"}, {Title: "Another title", Plan: "{1}"}, {}} {
		o.Dir, o.Now = dir, (&clockwork{start}).Now
		mustClose(t, mustOpen(t, o))
		r, err := Read(context.Background(), dir)
		if err != nil {
			t.Fatal(err)
		}
		if o.Title == "" {
			o.Title, o.Plan = "Another title", "{1}"
		}
		if r.Title != o.Title || r.Plan != o.Plan {
			t.Errorf("title %q, plan %q; want %q and %q", r.Title, r.Plan, o.Title, o.Plan)
		}
		r.Close()
	}
}
