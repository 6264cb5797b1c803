package journal

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"os"
	"reflect"
	"testing"
	"time"

	"go.uber.org/goleak"

	"clocktell/relay"
)

func TestMain(m *testing.M) {
	if role := os.Getenv(childRole); role != "" {
		os.Exit(child(role))
	}
	goleak.VerifyTestMain(m)
}

// start is when the shows of these tests begin.
var start = time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)

// clockwork is show time that a test sets.
type clockwork struct{ now time.Time }

func (c *clockwork) Now() time.Time { return c.now }

// options returns options for a journal in a folder at start.
func options(dir string) Options {
	return Options{Dir: dir, Title: "Test", Now: (&clockwork{start}).Now}
}

func mustOpen(t testing.TB, o Options) *Journal {
	t.Helper()
	j, err := Open(context.Background(), o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() })
	return j
}

func mustClose(t testing.TB, j *Journal) {
	t.Helper()
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
}

// through lets Run take events and returns what it sent on.
func through(t testing.TB, j *Journal, events ...relay.Event) []relay.Event {
	t.Helper()
	in := make(chan relay.Event, len(events))
	for _, e := range events {
		in <- e
	}
	close(in)
	out := make(chan relay.Event, len(events)+100)
	if err := j.Run(context.Background(), in, out); err != nil {
		t.Fatal(err)
	}
	close(out)
	var sent []relay.Event
	for e := range out {
		sent = append(sent, e)
	}
	return sent
}

// read collects records; an error of theirs fails the test.
func read(t testing.TB, records iter.Seq2[Record, error]) []relay.Event {
	t.Helper()
	var events []relay.Event
	last := int64(0)
	for r, err := range records {
		if err != nil {
			t.Fatal(err)
		}
		if r.Seq <= last {
			t.Fatalf("record %d follows %d", r.Seq, last)
		}
		last = r.Seq
		events = append(events, r.Event)
	}
	return events
}

func wantEvents(t testing.TB, got, want []relay.Event) {
	t.Helper()
	for i := range min(len(got), len(want)) {
		if !reflect.DeepEqual(got[i], want[i]) {
			t.Fatalf("event %d is %+v, want %+v", i, got[i], want[i])
		}
	}
	if len(got) != len(want) {
		t.Fatalf("%d events, want %d", len(got), len(want))
	}
}

// failure is a durable event that can be told from others by its number.
func failure(n int) relay.Event {
	return relay.FeedFailed{At: start.Add(time.Duration(n) * time.Second), Feed: "hall", Reason: "timeout", Text: fmt.Sprintf("no answer, %d", n)}
}

func failures(from, to int) []relay.Event {
	var events []relay.Event
	for n := from; n < to; n++ {
		events = append(events, failure(n))
	}
	return events
}

func answer(n int) relay.FeedAnswered {
	return relay.FeedAnswered{At: start.Add(time.Duration(n) * time.Second), Feed: "hall"}
}

func packet(n int) relay.PacketRead {
	return relay.PacketRead{At: start.Add(time.Duration(n) * time.Second), Feed: "hall", Parts: []relay.Part{
		{From: 0, Count: 3}, {From: 3, Head: 400 + n, Tail: 4, Text: fmt.Sprintf(" %d. Nf3 {[%%clk 0:%02d:07]} Nc6", n, n%60)}, {From: 4, Count: 6},
	}}
}

func TestContinuesAYoungShow(t *testing.T) {
	dir := t.TempDir()
	j := mustOpen(t, options(dir))
	first := j.Path()
	want := []relay.Event{failure(0), answer(1), answer(2), packet(3)}
	wantEvents(t, through(t, j, want...), want)
	mustClose(t, j)

	o := options(dir)
	o.Now = (&clockwork{start.Add(3*time.Second + defaultResumeWithin - 1)}).Now
	j = mustOpen(t, o)
	if j.Path() != first || j.Cut() != "" {
		t.Errorf("opened %s, cut %q; want %s again", j.Path(), j.Cut(), first)
	}
	wantEvents(t, read(t, j.Records()), want)
	through(t, j, failure(4))
	wantEvents(t, read(t, j.Records()), append(want, failure(4)))
}

func TestBeginsAnew(t *testing.T) {
	for name, change := range map[string]func(*Options){
		"too old": func(o *Options) { o.Now = (&clockwork{start.Add(3*time.Second + defaultResumeWithin)}).Now },
		"asked":   func(o *Options) { o.Fresh = true }, // in the same second, too
	} {
		dir := t.TempDir()
		j := mustOpen(t, options(dir))
		through(t, j, packet(3))
		first := j.Path()
		mustClose(t, j)
		o := options(dir)
		change(&o)
		j = mustOpen(t, o)
		if j.Path() == first {
			t.Errorf("%s: goes on with the old show", name)
		}
		wantEvents(t, read(t, j.Records()), nil)
		shows, err := showsIn(dir)
		if err != nil || len(shows) != 2 || shows[1] != j.Path() {
			t.Errorf("%s: shows %v, %v; want the new one last", name, shows, err)
		}
		mustClose(t, j)
	}
}

func TestOneProcessPerFolder(t *testing.T) {
	dir := t.TempDir()
	j := mustOpen(t, options(dir))
	if _, err := Open(context.Background(), options(dir)); !errors.Is(err, ErrInUse) {
		t.Errorf("opened twice: %v", err)
	}
	if out := runChild(t, "open", dir); out != "in use\n" {
		t.Errorf("another process says %q", out)
	}
	mustClose(t, j)
	if out := runChild(t, "open", dir); out != "opened\n" {
		t.Errorf("another process, afterwards, says %q", out)
	}
}

// TestLockFileThatIsNone gives the lock file other contents: nobody holds it.
func TestLockFileThatIsNone(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(dir+"/"+lockName, []byte("this is not a database, and long enough that one can see it is not\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	mustOpen(t, options(dir))
}

// TestSyncs asks SQLite whether a commit waits for the disk. 2 is FULL, see the
// documentation of PRAGMA synchronous: "WAL ... FULL: sync after each commit".
func TestSyncs(t *testing.T) {
	j := mustOpen(t, options(t.TempDir()))
	for pragma, want := range map[string]int64{"synchronous": 2, "page_size": pageBytes, "auto_vacuum": 2, "wal_autocheckpoint": walPagesFactor * checkpointMost} {
		if got, err := j.store.number(pragma); got != want || err != nil {
			t.Errorf("%s is %d, %v; want %d", pragma, got, err, want)
		}
	}
}
