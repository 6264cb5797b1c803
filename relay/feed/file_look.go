package feed

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"time"
)

const (
	// graceBeats is for how many looks a file may be half written before it is
	// taken as it is: one that is appended to all the time must still be shown.
	graceBeats = 4

	// youngFor is how long a file is read again at each look although size and
	// modification time stand still: two writes within one tick of a file system's
	// clock leave the same time. FAT counts in 2 s, the coarsest in use
	// (common practice, no source).
	youngFor = 2 * time.Second

	// sayEvery is how often a state that does not change is reported.
	sayEvery = time.Second
)

// watch is one Run of a File and what it remembers between looks.
type watch struct {
	*File
	to Sink

	// Owned by the goroutine in Run.
	met     fs.FileInfo // as of the last look; nil: none or not there
	metAt   time.Time   // when it was first like that
	done    bool        // what met describes has been delivered
	beats   int         // of grace used up
	heard   bool        // sum holds the content delivered last
	sum     [sha256.Size]byte
	said    Reason    // of the last report; "" for an answer
	saidAt  time.Time // zero before the first
	started time.Time // of the look under way
}

// look looks once and tells the sink what there is to tell.
func (w *watch) look() {
	w.started = w.o.Now()
	before, err := os.Stat(w.o.Path)
	if err == nil && !before.Mode().IsRegular() {
		w.met = nil
		w.fail(ReasonFile, w.notAFile(before))
		return
	}
	if err != nil {
		w.met = nil
		w.fail(ReasonFile, w.unreadable(err))
		return
	}
	if w.meet(before); w.done && !w.young() {
		w.same()
		return
	}
	w.take(before)
}

// meet notes what the file looks like now.
func (w *watch) meet(now fs.FileInfo) {
	if w.met == nil {
		w.beats = 0
	}
	if w.met == nil || changed(w.met, now) {
		w.metAt, w.done = w.started, false
	}
	w.met = now
}

// young tells that the file may have been rewritten without a new modification time.
// The age counts from our own first sight of it where that is later: a share's clock
// may be behind. One look more is for a rewrite just before the end of that time.
func (w *watch) young() bool {
	born := w.metAt
	if w.met.ModTime().After(born) {
		born = w.met.ModTime()
	}
	return w.started.Sub(born) < youngFor+w.o.Every
}

func changed(a, b fs.FileInfo) bool {
	return !os.SameFile(a, b) || a.Size() != b.Size() || !a.ModTime().Equal(b.ModTime())
}

// take reads the file and delivers it, unless it is still being written.
func (w *watch) take(before fs.FileInfo) {
	if before.Size() > w.o.MaxBytes {
		w.failLarge()
		return
	}
	body, err := w.read()
	if err != nil {
		w.fail(ReasonFile, w.unreadable(err))
		return
	}
	after, err := os.Stat(w.o.Path)
	if writing := err != nil || changed(before, after); writing && w.grace() {
		return
	}
	if int64(len(body)) > w.o.MaxBytes {
		w.failLarge()
		return
	}
	w.check(body)
}

// check delivers body if Check takes it. One it refuses gets the grace too: the
// beginning of a file is often nothing.
func (w *watch) check(body []byte) {
	sum := sha256.Sum256(body)
	if w.heard && sum == w.sum { // checked when it was new
		w.beats, w.done = 0, true
		w.same()
		return
	}
	if err := w.refused(body); err != nil {
		if !w.grace() {
			w.fail(ReasonNotPGN, fmt.Errorf("feed file %s: %w; is this the PGN file?", w.o.Path, err))
		}
		return
	}
	w.beats, w.done = 0, true
	w.heard, w.sum = true, sum
	w.answer(Answer{New: true, Body: body})
}

func (w *watch) refused(body []byte) error {
	if w.o.Check == nil {
		return nil
	}
	return w.o.Check(body)
}

// grace grants one more beat, if any is left.
func (w *watch) grace() bool {
	if w.beats >= graceBeats {
		return false
	}
	w.beats++
	return true
}
