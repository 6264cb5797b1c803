package journal

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/relay"
)

// full lets SQLite say that the disk is full, as documented for PRAGMA
// max_page_count: no more pages than there are.
func (j *Journal) full(t *testing.T) {
	t.Helper()
	pages, err := j.store.number("page_count")
	if err != nil {
		t.Fatal(err)
	}
	if got, err := j.store.number(fmt.Sprintf("max_page_count=%d", pages)); got != pages || err != nil {
		t.Fatalf("%d pages at most, %v; want %d", got, err, pages)
	}
}

// space ends full.
func (j *Journal) space(t *testing.T) {
	t.Helper()
	if _, err := j.store.number("max_page_count=1000000"); err != nil {
		t.Fatal(err)
	}
}

// large is an event that takes more room than a page has.
func large(n int) relay.Event {
	e := failure(n).(relay.FeedFailed)
	e.Text += strings.Repeat(" and so on", 2*pageBytes/10)
	return e
}

func larges(from, to int) []relay.Event {
	var events []relay.Event
	for n := from; n < to; n++ {
		events = append(events, large(n))
	}
	return events
}

// exchange sends an event through Run and returns what comes, up to that event.
func (r *running) exchange(e relay.Event) (states []relay.JournalState) {
	r.t.Helper()
	r.in <- e
	for got := range r.out {
		if s, ok := got.(relay.JournalState); ok {
			states = append(states, s)
			continue
		}
		if !sameEvent(got, e) {
			r.t.Fatalf("%v was sent on", got)
		}
		break
	}
	synctest.Wait()
	for {
		select {
		case got := <-r.out:
			states = append(states, got.(relay.JournalState))
		default:
			return states
		}
	}
}

// TestFullDisk fills the disk and frees it again: the show goes on, says so, and
// in the end everything is written, in order.
func TestFullDisk(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := run(t, options(t.TempDir()), 10)
		r.exchange(large(0))
		r.j.full(t)
		states := r.exchange(large(1))
		if len(states) != 1 || !strings.Contains(states[0].Text, "disk is full: free some space") {
			t.Fatalf("says %+v", states)
		}
		for n := 2; n < 10; n++ {
			if states := r.exchange(large(n)); len(states) > 0 {
				t.Fatalf("says it again: %+v", states)
			}
		}
		wantEvents(t, r.onDisk(), larges(0, 1))
		if s := r.j.Stats(); s.Unwritten != 9 || s.Failures < 9 || s.Lost != 0 || s.LastError == nil {
			t.Errorf("%+v", s)
		}
		r.j.space(t)
		time.Sleep(flushAfter) // nothing happens, but it is tried again
		synctest.Wait()
		wantEvents(t, r.onDisk(), larges(0, 10))
		if got := <-r.out; got != (relay.JournalState{}) {
			t.Errorf("says %+v", got)
		}
		if s := r.j.Stats(); s.Unwritten != 0 || s.LastError != nil {
			t.Errorf("%+v", s)
		}
		r.stop()
	})
}

// TestBusy lets another program write to the file: for one try, which is no news,
// and for both.
func TestBusy(t *testing.T) {
	tries, most := 0, 2
	var other *store
	o := options(t.TempDir())
	o.Wall = func() time.Time { // is asked right before each try
		if tries++; tries == most {
			other.undo.Exec()
		}
		return start
	}
	j := mustOpen(t, o)
	var err error
	if other, err = openStore(j.Path(), checkpointMost); err != nil {
		t.Fatal(err)
	}
	defer other.close()
	for n, want := range []string{"", "another program holds it"} {
		if _, err := other.begin.Exec(); err != nil {
			t.Fatal(err)
		}
		tries, most = 0, n+2
		sent := through2(j, failure(n))
		if s, ok := sent[len(sent)-1].(relay.JournalState); ok != (want != "") || !strings.Contains(s.Text, want) {
			t.Errorf("%d: sent %v", n, sent)
		}
	}
	through(t, j, failure(2))
	wantEvents(t, read(t, j.Records()), failures(0, 3))
}

// through2 is through where Run may end with an error.
func through2(j *Journal, events ...relay.Event) []relay.Event {
	in, out := make(chan relay.Event, len(events)), make(chan relay.Event, len(events)+10)
	for _, e := range events {
		in <- e
	}
	close(in)
	j.Run(context.Background(), in, out)
	close(out)
	var sent []relay.Event
	for e := range out {
		sent = append(sent, e)
	}
	return sent
}

// TestMemoryIsFullToo writes more than memory holds while the disk is full. What
// comes after that is lost, is counted, and the show begins anew from its key.
func TestMemoryIsFullToo(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		o := options(t.TempDir())
		o.Key = func() []relay.Event { return []relay.Event{packet(77), answer(78)} }
		r := run(t, o, 10)
		huge := relay.FeedFailed{At: start, Feed: "hall", Text: strings.Repeat("x", unwrittenBytesMost/2-1000)}
		r.exchange(failure(0))
		r.j.full(t)
		r.exchange(huge)
		r.exchange(huge)
		states := r.exchange(huge)
		if len(states) != 1 || !strings.Contains(states[0].Text, "no room in memory") {
			t.Fatalf("says %d states", len(states))
		}
		r.exchange(failure(1)) // there would be room, but it would not follow
		r.exchange(answer(2))
		r.j.space(t)
		if states := r.exchange(failure(3)); len(states) != 1 || states[0].Text != "" {
			t.Fatalf("says %+v", states)
		}
		r.exchange(failure(4))
		if s := r.j.Stats(); s.Lost != 3 || s.Unwritten != 0 {
			t.Errorf("lost %d, unwritten %d; want 3 and 0", s.Lost, s.Unwritten)
		}
		r.stop()
		wantEvents(t, r.onDisk(), []relay.Event{failure(0), huge, huge, packet(77), answer(78), failure(3), failure(4)})
		r.wantMarks(3, map[relay.Event]Record{answer(78): {Key: true}, failure(3): {}})
	})
}

// wantMarks holds records to their Key, and that so many events are missing
// right before the key.
func (r *running) wantMarks(lost uint64, marks map[relay.Event]Record) {
	r.t.Helper()
	recording, err := Read(context.Background(), r.j.Path())
	if err != nil {
		r.t.Fatal(err)
	}
	defer recording.Close()
	for record, err := range recording.Records() {
		if err != nil {
			r.t.Fatal(err)
		}
		if _, ok := record.Event.(relay.PacketRead); ok {
			if record.Lost != lost || !record.Key {
				r.t.Errorf("%+v, want key, lost %d", record, lost)
			}
			continue
		}
		if want, ok := marks[record.Event]; ok && want.Key != record.Key || record.Lost != 0 {
			r.t.Errorf("%+v, want key %t", record, want.Key)
		}
	}
}

// TestEndsWithUnwritten ends Run while the disk is full: the error says what is
// not written.
func TestEndsWithUnwritten(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := run(t, options(t.TempDir()), 10)
		r.exchange(failure(0))
		r.j.full(t)
		r.exchange(large(1))
		r.exchange(large(2))
		r.cancel()
		if err := <-r.done; err == nil || !strings.Contains(err.Error(), "2 events could not be written") {
			t.Errorf("Run says %v", err)
		}
		r.j.space(t)
		mustClose(t, r.j) // tries once more
		wantEvents(t, r.onDisk(), []relay.Event{failure(0), large(1), large(2)})
	})
}
