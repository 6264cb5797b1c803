package journal

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
)

// sized is a durable event of about that many bytes, which do not pack.
func sized(n, bytes int) relay.Event {
	e := failure(n).(relay.FeedFailed)
	e.Text += strings.Repeat(".", bytes)
	return e
}

// folderBytes is the size of all files of a folder.
func folderBytes(t *testing.T, dir string) int64 {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var n int64
	for _, entry := range entries {
		if info, err := entry.Info(); err == nil {
			n += info.Size()
		}
	}
	return n
}

// TestSegments holds that a segment begins with its key, and that the key counts
// only where the segment is the first one there.
func TestSegments(t *testing.T) {
	o := options(t.TempDir())
	o.SegmentBytes = 20_000
	keys := 0
	o.Key = func() []relay.Event {
		keys++
		return []relay.Event{answer(-keys), packet(-keys)}
	}
	j := mustOpen(t, o)
	var want []relay.Event
	for n := range 100 {
		want = append(want, sized(n, 1000))
		through(t, j, want[n])
	}
	if keys < 3 || len(j.segments) != keys+1 || j.Stats().SegmentsBegun != uint64(keys) {
		t.Fatalf("%d keys, segments %v", keys, j.segments)
	}
	wantEvents(t, read(t, j.Records()), want)

	j.o.MaxBytes = 1 // the oldest segments have to go, all but the last
	for more := true; more; {
		var err error
		if more, err = j.trim(); err != nil {
			t.Fatal(err)
		}
	}
	if len(j.segments) != 1 || j.Stats().SegmentsDropped != uint64(keys) || !strings.Contains(j.Dropped(), "the beginning of show-20261017T150000Z.db, up to") {
		t.Errorf("segments %v, dropped %q", j.segments, j.Dropped())
	}
	if free, err := j.store.number("freelist_count"); free > 0 || err != nil {
		t.Errorf("%d pages are not given back, %v", free, err)
	}
	if size := bytesOf(j.Path()) - bytesOf(j.Path()+"-wal") - bytesOf(j.Path()+"-shm"); size > 3*o.SegmentBytes {
		t.Errorf("the file still has %d bytes", size)
	}
	got := read(t, j.Records())
	wantEvents(t, got, append([]relay.Event{answer(-keys), packet(-keys)}, want[100-len(got)+2:]...))
	if len(got) < 3 || len(got) > 25 {
		t.Errorf("%d events in the last segment", len(got))
	}
	mustClose(t, j)
	o.MaxBytes = 0
	j = mustOpen(t, o)
	wantEvents(t, read(t, j.Records()), got)
	if j.Cut() != "" || len(j.segments) != 1 {
		t.Errorf("cut %q, segments %v", j.Cut(), j.segments)
	}
}

// TestKeyStandsForAllBefore counts what was sent on, says the number as key, and
// holds it to the records before the key. The disk is full for a while.
func TestKeyStandsForAllBefore(t *testing.T) {
	o := options(t.TempDir())
	o.SegmentBytes = 10_000
	sent := 0
	o.Sent = func(e relay.Event) {
		if _, ok := e.(relay.FeedFailed); ok {
			sent++
		}
	}
	o.Key = func() []relay.Event { return []relay.Event{relay.ByHand{At: start, Ply: sent}} }
	j := mustOpen(t, o)
	for n := range 100 {
		switch n {
		case 20:
			j.full(t)
		case 60:
			j.space(t)
		}
		through2(j, answer(n), failure(2*n), answer(n), failure(2*n+1))
	}
	through(t, j, failure(200))
	records, keys := 0, 0
	for s, err := range scan(context.Background(), j.readers, 0) {
		if err != nil {
			t.Fatal(err)
		}
		var u unpacker
		events, err := u.eventsOf(&s.row)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range events {
			switch e := e.(type) {
			case relay.FeedFailed:
				records++
			case relay.ByHand:
				if keys++; e.Ply != records {
					t.Errorf("a key stands for %d records, %d are before it", e.Ply, records)
				}
			}
		}
	}
	if records != 201 || keys < 2 {
		t.Errorf("%d records, %d keys", records, keys)
	}
}

// TestHalfDeletedSegment stops while a segment is being deleted: what is left of
// it does not count.
func TestHalfDeletedSegment(t *testing.T) {
	o := options(t.TempDir())
	o.SegmentBytes = 200 * trimRows
	o.Key = func() []relay.Event { return []relay.Event{packet(0)} }
	j := mustOpen(t, o)
	for n := range 3 * trimRows {
		through(t, j, sized(n, 100))
	}
	if err := j.dropRows(); err != nil {
		t.Fatal(err)
	}
	segments := len(j.segments)
	mustClose(t, j)
	j = mustOpen(t, o)
	got := read(t, j.Records())
	if j.Cut() != "" || len(j.segments) != segments-1 || got[0].(relay.PacketRead).At != packet(0).At {
		t.Errorf("cut %q, segments %d of %d, begins with %v", j.Cut(), len(j.segments), segments, got[0])
	}
}

// TestBounded lets a show run for long, much longer than there is room, with
// some older shows in the folder. The folder stays within its limit, the -wal
// within its own, and the newest events are there.
func TestBounded(t *testing.T) {
	dir := t.TempDir()
	for n := range 3 {
		o := options(dir)
		o.Fresh, o.Now = true, (&clockwork{start.Add(time.Duration(n-10) * time.Hour)}).Now
		j := mustOpen(t, o)
		through(t, j, sized(0, 2<<20))
		mustClose(t, j)
	}
	o := options(dir)
	o.Fresh, o.MaxBytes, o.SegmentBytes = true, 24<<20, 2<<20
	o.Key = func() []relay.Event { return []relay.Event{packet(0)} }
	j := mustOpen(t, o)
	most, mostWAL := int64(0), int64(0)
	const events = 30_000
	for n := 0; n < events; n += batchMost {
		var batch []relay.Event
		for i := range batchMost {
			batch = append(batch, sized(n+i, 3000))
		}
		through(t, j, batch...)
		most = max(most, folderBytes(t, dir))
		if info, err := os.Stat(j.Path() + "-wal"); err == nil {
			mostWAL = max(mostWAL, info.Size())
		}
	}
	if most > o.MaxBytes || mostWAL > walBytesMost {
		t.Errorf("the folder had up to %d bytes, the -wal up to %d; want %d and %d", most, mostWAL, o.MaxBytes, walBytesMost)
	}
	s := j.Stats()
	if shows, _ := showsIn(dir); len(shows) != 1 || s.ShowsDropped != 3 || s.SegmentsDropped < 20 || s.Failures > 0 {
		t.Errorf("shows %v, %+v", shows, s)
	}
	got := read(t, j.Records())
	if last := got[len(got)-1]; len(got) < 1000 || last.When().Sub(start) < (events-1)*time.Second {
		t.Errorf("%d events, the last one %v", len(got), last.When())
	}
	t.Logf("the folder had up to %d bytes, the -wal up to %d; %+v", most, mostWAL, s)
}

// TestWALIsBounded writes many small commits, as a long show does.
func TestWALIsBounded(t *testing.T) {
	j := mustOpen(t, options(t.TempDir()))
	most := int64(0)
	for n := range 6000 {
		through(t, j, packet(n))
		if info, err := os.Stat(j.Path() + "-wal"); err == nil {
			most = max(most, info.Size())
		}
	}
	if want := int64(2 * checkpointMost * (pageBytes + walFrameBytes)); most > want || most == 0 {
		t.Errorf("the -wal had up to %d bytes, want %d at most", most, want)
	}
}

// TestOldShowsGoFirst opens a folder that is too large: older shows and what was
// set aside are deleted, oldest first, until there is room.
func TestOldShowsGoFirst(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{
		"show-20260101T000000Z.db", "show-20260101T000000Z.db-wal", "show-20260102T000000Z.db.damaged", "show-20260103T000000Z.db", "notes.txt",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), make([]byte, 1<<20), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	o := options(dir)
	o.Fresh, o.MaxBytes = true, 5<<19
	j := mustOpen(t, o)
	entries, _ := filepath.Glob(dir + "/show-202601*")
	if len(entries) != 1 || filepath.Base(entries[0]) != "show-20260103T000000Z.db" || j.Stats().ShowsDropped != 2 {
		t.Errorf("left: %v, dropped %s", entries, j.Dropped())
	}
	if _, err := os.Stat(dir + "/notes.txt"); err != nil {
		t.Error("deleted a file that is none of its own")
	}
}
