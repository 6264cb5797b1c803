package journal

import (
	"context"
	"errors"
	"os"
	"testing"
	"testing/synctest"
	"time"

	"clocktell/relay"
)

// running is a Run in a bubble of testing/synctest.
type running struct {
	t      *testing.T
	j      *Journal
	in     chan relay.Event
	out    chan relay.Event
	cancel context.CancelFunc
	done   chan error
}

func run(t *testing.T, o Options, room int) *running {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	r := &running{t: t, j: mustOpen(t, o), in: make(chan relay.Event, room), out: make(chan relay.Event, room), cancel: cancel, done: make(chan error)}
	go func() { r.done <- r.j.Run(ctx, r.in, r.out) }()
	return r
}

// stop ends Run and closes the journal.
func (r *running) stop() {
	r.t.Helper()
	r.cancel()
	if err := <-r.done; err != nil {
		r.t.Error(err)
	}
	mustClose(r.t, r.j)
}

// onDisk returns what another reader finds in the file.
func (r *running) onDisk() []relay.Event {
	r.t.Helper()
	recording, err := Read(context.Background(), r.j.Path())
	if err != nil {
		r.t.Fatal(err)
	}
	defer recording.Close()
	return read(r.t, recording.Records())
}

// TestWrittenBeforeSentOn takes one event after the other and looks into the
// file each time.
func TestWrittenBeforeSentOn(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := run(t, options(t.TempDir()), 0)
		hand := relay.ByHand{At: start, ID: "1", Board: 2, Act: relay.ActResult, Text: "1-0"}
		want := []relay.Event{failure(1), packet(2), hand}
		for i, e := range want {
			r.in <- e
			if got := <-r.out; got.When() != e.When() {
				t.Errorf("%v was sent on, want %v", got, e)
			}
			wantEvents(t, r.onDisk(), want[:i+1])
		}
		r.stop()
	})
}

// TestAnswersDoNotWait holds that an answer is sent on at once and written after
// flushAfter, or with the next packet, before it.
func TestAnswersDoNotWait(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := run(t, options(t.TempDir()), 0)
		r.in <- answer(1)
		<-r.out
		time.Sleep(flushAfter - 1)
		wantEvents(t, r.onDisk(), nil)
		time.Sleep(time.Nanosecond)
		synctest.Wait()
		wantEvents(t, r.onDisk(), []relay.Event{answer(1)})
		r.in <- answer(2)
		<-r.out
		r.in <- packet(3)
		<-r.out
		wantEvents(t, r.onDisk(), []relay.Event{answer(1), answer(2), packet(3)})
		r.in <- answer(4)
		<-r.out
		r.stop()
		wantEvents(t, r.onDisk(), []relay.Event{answer(1), answer(2), packet(3), answer(4)})
	})
}

// TestAnswersAreBounded sends so many answers that they are written before
// flushAfter.
func TestAnswersAreBounded(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := run(t, options(t.TempDir()), 0)
		for n := range answersMost {
			r.in <- answer(n)
			<-r.out
		}
		synctest.Wait()
		if got := len(r.onDisk()); got != answersMost {
			t.Errorf("%d of %d answers are written", got, answersMost)
		}
		r.stop()
	})
}

// TestOrder mixes all kinds, with some that are not written, in one batch and in
// many.
func TestOrder(t *testing.T) {
	events := []relay.Event{
		answer(1), relay.OpeningsLoaded{At: start}, answer(2), packet(3), answer(4), relay.OpeningsLoaded{At: start}, failure(5), answer(6),
	}
	var written []relay.Event
	for _, e := range events {
		if isWritten(e) {
			written = append(written, e)
		}
	}
	synctest.Test(t, func(t *testing.T) {
		for _, room := range []int{0, len(events)} {
			r := run(t, options(t.TempDir()), room)
			go func() {
				for _, e := range events {
					r.in <- e
				}
			}()
			for i, want := range events {
				if got := <-r.out; got != nil && !sameEvent(got, want) {
					t.Errorf("%v is number %d, want %v", got, i, want)
				}
			}
			r.stop()
			wantEvents(t, r.onDisk(), written)
		}
	})
}

func sameEvent(a, b relay.Event) bool {
	_, p := a.(relay.PacketRead)
	_, q := b.(relay.PacketRead)
	return p && q && a.When() == b.When() || !p && !q && a == b
}

// TestGroups holds that what waits is written together, batchMost at a time.
func TestGroups(t *testing.T) {
	j := mustOpen(t, options(t.TempDir()))
	through(t, j, failures(0, 2*batchMost)...)
	if s := j.Stats(); s.Commits != 2 || s.Records != 2*batchMost || s.FileBytes == 0 || s.SlowestCommit < s.LastCommit {
		t.Errorf("%+v, want 2 commits", s)
	}
}

// TestEndsWithUnsentEvents ends Run while it is sending: what it took is
// written, and Run returns.
func TestEndsWithUnsentEvents(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := run(t, options(t.TempDir()), 0)
		r.in <- failure(1)
		synctest.Wait() // nobody takes it from out
		r.stop()
		wantEvents(t, r.onDisk(), failures(1, 2))
	})
}

// TestCloseLeavesOneFile looks at the folder after a show.
func TestCloseLeavesOneFile(t *testing.T) {
	dir := t.TempDir()
	j := mustOpen(t, options(dir))
	through(t, j, failures(0, 10)...)
	mustClose(t, j)
	mustClose(t, j) // again does nothing
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 2 || entries[0].Name() != lockName || entries[1].Name() != "show-20261017T150000Z.db" {
		t.Errorf("the folder holds %v, %v", entries, err)
	}
}

// TestOpenFails gives folders that cannot be used.
func TestOpenFails(t *testing.T) {
	file := t.TempDir() + "/file"
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{file, file + "/in"} {
		if _, err := Open(context.Background(), options(dir)); err == nil {
			t.Errorf("%s can be a folder", dir)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	dir := t.TempDir()
	mustClose(t, mustOpen(t, options(dir)))
	if _, err := Open(ctx, options(dir)); !errors.Is(err, context.Canceled) {
		t.Errorf("with a context that has ended: %v", err)
	}
	mustOpen(t, options(dir)) // nothing is held, nothing was taken for damage
}
