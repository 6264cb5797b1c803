package journal

import (
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"clocktell/relay"
)

// TestBrokenWhileOpen overwrites the file under a running show: it is replaced,
// and what is missing is made up for by the key.
func TestBrokenWhileOpen(t *testing.T) {
	for what, key := range map[string]func() []relay.Event{
		"with a key": func() []relay.Event { return []relay.Event{packet(50)} }, "without": nil,
	} {
		dir := t.TempDir()
		o := options(dir)
		o.Key = key
		j := mustOpen(t, o)
		through(t, j, failures(1, 600)...)
		if err := j.store.checkpoint(); err != nil {
			t.Fatal(err)
		}
		scribble(t, j)
		newest := []relay.Event{answer(600), failure(600), failure(601)}
		wantEvents(t, through2(j, newest...), newest) // no news: it is mended
		if cut := j.Cut(); !strings.Contains(cut, damagedSuffix) {
			t.Errorf("%s: cut says %q", what, cut)
		}
		got := read(t, j.Records())
		lost := int(j.Stats().Lost)
		want := append(failures(1, 600-lost), newest...)
		if key != nil { // the key stands for the answer, too, which was sent on before
			want = append(append(failures(1, 601-lost), packet(50)), newest[1:]...)
		}
		wantEvents(t, got, want)
		if lost == 0 {
			t.Errorf("%s: nothing was lost; the test shows nothing", what)
		}
		mustClose(t, j)
		if j = mustOpen(t, o); j.Cut() != "" {
			t.Errorf("%s: afterwards: %s", what, j.Cut())
		}
		mustClose(t, j)
	}
}

// scribble overwrites the end of the file of an open journal, so that SQLite
// notices at the next write.
func scribble(t *testing.T, j *Journal) {
	t.Helper()
	pages, err := j.store.number("page_count")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := j.store.number("shrink_memory"); err != nil && err.Error() != "sql: no rows in result set" {
		t.Fatal(err)
	}
	out, err := exec.Command("dd", "if=/dev/urandom", "of="+j.Path(), "conv=notrunc", "status=none", "bs="+strconv.Itoa(pageBytes),
		"seek="+strconv.FormatInt(pages-3, 10), "count=3").CombinedOutput() // not os.WriteFile: see the package comment on locks
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
}

// TestFileSizeLimit runs a child under the shell's limit on the size of files, so
// that the operating system refuses to write: events go on nevertheless, and
// those that were written are there.
func TestFileSizeLimit(t *testing.T) {
	dir := t.TempDir()
	c := childCommand(t, "limited", dir)
	limited := exec.Command("sh", "-c", "ulimit -f 400; exec "+c.Path) // 400 blocks of 512 bytes or 1 KiB, by shell
	limited.Env = c.Env
	out, err := limited.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	j := mustOpen(t, options(dir))
	if j.Cut() != "" {
		t.Errorf("cut: %s", j.Cut())
	}
	got := read(t, j.Records())
	wantEvents(t, got, failures(0, len(got)))
	if want := fmt.Sprintf("all went on, %d unwritten\n", limitedEvents-len(got)); !strings.HasSuffix(string(out), want) || len(got) < 100 {
		t.Errorf("%d events are there; the child says %s", len(got), out)
	}
	t.Logf("%s", out)
}

const limitedEvents = 5000

// writeLimited is the child of TestFileSizeLimit.
func writeLimited(j *Journal) error {
	var events []relay.Event
	for n := range limitedEvents {
		events = append(events, failure(n))
	}
	went := 0
	for _, e := range through2(j, events...) {
		switch e := e.(type) {
		case relay.JournalState:
			fmt.Println(e.Text)
		case relay.FeedFailed:
			if e != failure(went) {
				return fmt.Errorf("%v went on as number %d", e, went)
			}
			went++
		}
	}
	if went != limitedEvents {
		return fmt.Errorf("%d went on", went)
	}
	fmt.Printf("all went on, %d unwritten\n", j.Stats().Unwritten)
	os.Exit(0) // no Close: it would fail as well
	return nil
}

// TestKeepsManyWhileFull keeps more than one transaction takes, by number and by
// size. They are written in several, so that little is written in vain.
func TestKeepsManyWhileFull(t *testing.T) {
	for size, many := range map[int]int{pageBytes / 2: 3 * chunkRows, chunkBytes / 3: 10} {
		o := options(t.TempDir())
		o.SegmentBytes = 1 << 30
		j := mustOpen(t, o)
		j.full(t)
		var events []relay.Event
		for n := range many {
			events = append(events, sized(n, size))
		}
		through2(j, events...)
		if got := j.Stats().Unwritten; got != uint64(many) {
			t.Fatalf("%d of %d are kept", got, many)
		}
		pages, _ := j.store.number("page_count")
		j.store.number(fmt.Sprintf("max_page_count=%d", pages+600)) // room for the beginning
		j.commit(nil)
		if len(j.kept) == 0 || len(j.kept) >= many || j.keptSize != sizeOf(j.kept) {
			t.Errorf("%d are kept when some could be written, %d bytes for %d", len(j.kept), j.keptSize, sizeOf(j.kept))
		}
		j.space(t)
		before := j.Stats().Commits
		through(t, j, failure(many))
		s := j.Stats()
		if s.Unwritten != 0 || s.Commits-before < 2 || j.keptSize != 0 {
			t.Errorf("%+v, %d bytes kept", s, j.keptSize)
		}
		wantEvents(t, read(t, j.Records()), append(events, failure(many)))
		mustClose(t, j)
	}
}
