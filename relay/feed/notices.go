package feed

import (
	"context"
	"errors"
	"fmt"
	"os"
	"sync/atomic"
	"time"

	"github.com/fsnotify/fsnotify"
)

const (
	// settle is how long no further notice must come before a look: the first one is
	// often sent at the first of several writes.
	settle = 20 * time.Millisecond

	// settleMost is how long notices may put a look off.
	settleMost = 100 * time.Millisecond

	// renewEvery is how often it is tried to hang a watcher where none hangs, or where
	// the folder has been replaced by another of its name.
	renewEvery = time.Second
)

// hung is a watcher that hangs in a folder.
type hung struct {
	events <-chan fsnotify.Event
	errors <-chan error
	close  func() error
}

// hanger hangs a watcher; tests replace it.
type hanger func(dir string) (*hung, error)

func hangIn(dir string) (*hung, error) {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, err
	}
	if err := w.Add(dir); err != nil {
		w.Close()
		return nil, err
	}
	return &hung{w.Events, w.Errors, w.Close}, nil
}

// note is a line for health, read by one goroutine and written by another.
type note struct{ line atomic.Pointer[string] }

func (n *note) set(line string) { n.line.Store(&line) }

func (n *note) text() string {
	if line := n.line.Load(); line != nil {
		return *line
	}
	return ""
}

// notices wait for the system to tell that something in a folder has changed. What
// is told is never believed, only looked after: any notice is as good as another.
type notices struct {
	dir   string
	every time.Duration // from look to look, for the note
	hang  hanger
	note  *note

	// Owned by the goroutine in Run.
	on    *hung       // nil: no watcher hangs, only looking is left
	in    os.FileInfo // the folder on hangs in
	tried time.Time   // when it was last tried to hang it; zero: never
}

func newNotices(dir string, every time.Duration, hang hanger, n *note) *notices {
	return &notices{dir: dir, every: every, hang: hang, note: n}
}

// renew hangs the watcher in the folder that now has the name, if it is time to see
// to that. Without one it says so in the note and leaves it at that.
func (n *notices) renew(now time.Time) {
	if !n.tried.IsZero() && now.Sub(n.tried) < renewEvery {
		return
	}
	n.tried = now
	in, err := os.Stat(n.dir)
	if err == nil && n.on != nil && os.SameFile(in, n.in) {
		return
	}
	n.drop()
	if err == nil {
		n.in = in
		n.on, err = n.hang(n.dir)
	}
	if err != nil {
		n.lost(err)
		return
	}
	n.note.set("")
}

// lost goes on without a watcher.
func (n *notices) lost(err error) {
	n.drop()
	n.note.set(fmt.Sprintf("looked at every %s, not notified: %v", seconds(n.every), bare(err)))
}

// drop takes the watcher down and waits for its goroutine.
func (n *notices) drop() {
	if n.on != nil {
		n.on.close()
		n.on = nil
	}
}

// wait waits until it is time to look: soon after a notice, or after every.
func (n *notices) wait(ctx context.Context, every time.Duration) {
	begun := time.Now()
	timer := time.NewTimer(every)
	defer timer.Stop()
	latest := every // from begun to the look
	for {
		select {
		case <-ctx.Done():
			return
		case <-timer.C:
			return
		case _, open := <-n.events():
			if !open {
				n.lost(fsnotify.ErrClosed)
				continue
			}
		case err, open := <-n.errors():
			if !open {
				n.lost(fsnotify.ErrClosed)
				continue
			}
			n.stumbled(err)
		}
		since := time.Since(begun)
		latest = min(latest, since+settleMost)
		timer.Reset(min(settle, latest-since))
	}
}

func (n *notices) events() <-chan fsnotify.Event {
	if n.on == nil {
		return nil
	}
	return n.on.events
}

func (n *notices) errors() <-chan error {
	if n.on == nil {
		return nil
	}
	return n.on.errors
}

// stumbled takes an error of the watcher. Too many notices at once are as good as one.
func (n *notices) stumbled(err error) {
	if !errors.Is(err, fsnotify.ErrEventOverflow) {
		n.lost(err)
	}
}
