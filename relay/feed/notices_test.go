package feed

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/fsnotify/fsnotify"
)

// noNotices is a system that has run out of watchers.
func noNotices(string) (*hung, error) { return nil, errors.New("too many open files") }

// porch is a folder in which watchers hang that a test rings.
type porch struct {
	mu     sync.Mutex
	fails  int // so many attempts more
	hung   int // so far
	closed int
	events chan fsnotify.Event
	errors chan error
}

func (p *porch) hang(string) (*hung, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.fails > 0 {
		p.fails--
		return nil, errors.New("too many open files")
	}
	p.hung++
	p.events, p.errors = make(chan fsnotify.Event), make(chan error)
	return &hung{p.events, p.errors, func() error { p.closed++; return nil }}, nil
}

// ring sends a notice to the watcher that hangs now, or fault if there is one.
func (p *porch) ring(fault error) {
	p.mu.Lock()
	events, errors := p.events, p.errors
	p.mu.Unlock()
	if fault != nil {
		errors <- fault
		return
	}
	events <- fsnotify.Event{}
}

// onPorch runs a File in a bubble for so long, and holds the times of its looks, seen
// from the beginning, against want. Reports do not matter here.
func onPorch(t *testing.T, p *porch, every, during time.Duration, ring func(f *File), want ...time.Duration) {
	t.Helper()
	synctest.Test(t, func(t *testing.T) {
		begin := time.Now()
		var looks []time.Duration
		now := func() time.Time { // read first thing in a look, and again for each report
			if at := time.Since(begin); len(looks) == 0 || looks[len(looks)-1] != at {
				looks = append(looks, at)
			}
			return time.Now()
		}
		f, err := NewFile(FileOptions{Path: filepath.Join(t.TempDir(), "games.pgn"), Every: every, Now: now})
		f.hang = p.hang
		go ring(f)
		runInside(t, f, err, &recorder{during: during})
		if !slices.Equal(looks, want) {
			t.Errorf("looked at %v, want %v", looks, want)
		}
		if p.closed != p.hung {
			t.Errorf("%d watchers hung and %d were taken down", p.hung, p.closed)
		}
	})
}

func TestNoticesMakeItLook(t *testing.T) {
	p := &porch{}
	onPorch(t, p, sec, 1900*ms, func(*File) {
		time.Sleep(300 * ms)
		p.ring(nil)
	}, 0, 320*ms, 1320*ms)
}

// Writes that follow one another quickly are one, but cannot put the look off for ever.
func TestNoticesSettle(t *testing.T) {
	p := &porch{}
	onPorch(t, p, sec, 1900*ms, func(*File) {
		time.Sleep(300 * ms)
		for range 3 {
			p.ring(nil)
			time.Sleep(15 * ms)
		}
		time.Sleep(255 * ms)
		for range 21 { // 300 ms
			p.ring(nil)
			time.Sleep(15 * ms)
		}
	}, 0, 350*ms, 700*ms, 805*ms, 910*ms)
}

// The timer stays: shares send no notices, and some are lost.
func TestNoticesThatNeverCome(t *testing.T) {
	onPorch(t, &porch{}, sec, 3500*ms, func(*File) {}, 0, sec, 2*sec, 3*sec)
}

func TestNoticesWithoutWatcher(t *testing.T) {
	p := &porch{fails: 2}
	var notes []string
	onPorch(t, p, 400*ms, 2600*ms, func(f *File) {
		for _, wait := range []time.Duration{100 * ms, 2200 * ms, 200 * ms} {
			time.Sleep(wait)
			notes = append(notes, f.Note())
		}
	}, 0, 400*ms, 800*ms, 1200*ms, 1600*ms, 2*sec, 2400*ms)
	const without = "looked at every 0.4 s, not notified: too many open files"
	if want := []string{without, without, ""}; !slices.Equal(notes, want) || p.hung != 1 {
		t.Errorf("noted %q and hung %d times, want %q and once", notes, p.hung, want)
	}
}

func TestNoticesErrors(t *testing.T) {
	for name, row := range map[string]struct {
		ring  func(p *porch)
		note  string
		hung  int
		looks []time.Duration
	}{
		"too many at once": {func(p *porch) { p.ring(fsnotify.ErrEventOverflow) }, "", 1, []time.Duration{0, 320 * ms, 1320 * ms}},
		"an error":         {func(p *porch) { p.ring(errors.New("torn")) }, "looked at every 1 s, not notified: torn", 2, []time.Duration{0, 320 * ms, 1320 * ms}},
		"its end":          {func(p *porch) { p.mu.Lock(); close(p.events); p.mu.Unlock() }, "looked at every 1 s, not notified: " + fsnotify.ErrClosed.Error(), 2, []time.Duration{0, sec}},
		"its other end":    {func(p *porch) { p.mu.Lock(); close(p.errors); p.mu.Unlock() }, "looked at every 1 s, not notified: " + fsnotify.ErrClosed.Error(), 2, []time.Duration{0, sec}},
	} {
		t.Run(name, func(t *testing.T) {
			p, during, after := &porch{}, "", ""
			onPorch(t, p, sec, 1900*ms, func(f *File) {
				time.Sleep(300 * ms)
				row.ring(p)
				time.Sleep(10 * ms)
				during = f.Note()
				time.Sleep(1500 * ms)
				after = f.Note()
			}, row.looks...)
			if during != row.note || after != "" || p.hung != row.hung {
				t.Errorf("noted %q, then %q, and hung %d times; want %q, nothing and %d", during, after, p.hung, row.note, row.hung)
			}
		})
	}
}

// Another folder of the same name needs another watcher.
func TestNoticesFollowTheFolder(t *testing.T) {
	p, n := &porch{}, note{}
	dir := filepath.Join(t.TempDir(), "games")
	watched, now := newNotices(dir, sec, p.hang, &n), time.Now()
	renew := func(wait time.Duration, wantHung int, wantNote string) {
		t.Helper()
		now = now.Add(wait)
		watched.renew(now)
		if p.hung != wantHung || n.text() != wantNote {
			t.Errorf("hung %d times, noted %q; want %d, %q", p.hung, n.text(), wantHung, wantNote)
		}
	}
	const missing = "looked at every 1 s, not notified: no such file or directory"
	renew(0, 0, missing)
	if err := os.Mkdir(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	renew(renewEvery/2, 0, missing)
	renew(renewEvery/2, 1, "")
	renew(renewEvery, 1, "")
	if err := os.Rename(dir, dir+".old"); err != nil {
		t.Fatal(err)
	}
	renew(renewEvery, 1, missing)
	if err := os.Mkdir(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	renew(renewEvery, 2, "")
	if err := os.Rename(dir, dir+".older"); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	renew(renewEvery, 3, "")
	watched.drop()
	if p.closed != 3 {
		t.Errorf("%d of 3 watchers were taken down", p.closed)
	}
}
