package feed

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"
)

const (
	// grace is for how long a file may be half written before it is taken as it is: one
	// that is appended to all the time must still be shown.
	grace = time.Second

	// graceLook is the longest wait for the next look meanwhile.
	graceLook = grace / 4

	// youngFor is how long a file is read again at each look although size and
	// modification time stand still: two writes within one tick of a file system's
	// clock leave the same time. FAT counts in 2 s, the coarsest in use
	// (common practice, no source).
	youngFor = 2 * time.Second
)

// sight is what a look at a file found.
type sight int

const (
	sightSame sight = iota // what was there
	sightNew               // another content
	sightWait              // half written, perhaps: wait and look again
	sightBad               // a fault
)

// glance is one file and what is remembered of it between looks.
type glance struct {
	path  string
	every time.Duration           // between two looks
	limit int64                   // bytes the file may have
	check func(body []byte) error // nil: none
	read  func() ([]byte, error)  // the whole file, at most a byte above limit; tests replace it

	// Owned by the goroutine in Run.
	met   fs.FileInfo // as of the last look; nil: none or not there
	metAt time.Time   // when it was first like that
	done  bool        // what met describes has been delivered
	half  time.Time   // since when it has been half written; zero: it is not
	heard bool        // body is the content delivered last
	body  []byte      // shared with whoever took it, and changed by nobody
	blank bool        // the content refused last was white space
}

func newGlance(path string, every time.Duration, limit int64, check func([]byte) error) *glance {
	g := &glance{path: path, every: every, limit: limit, check: check}
	g.read = g.readAll
	return g
}

// see looks at the file at now. The failure says what is wrong with sightBad.
func (g *glance) see(now time.Time) (sight, *failure) {
	before, err := os.Stat(g.path)
	if err == nil && !before.Mode().IsRegular() {
		err = notAFile(g.path, before)
	} else if err != nil {
		err = unreadable(g.path, err)
	}
	if err != nil {
		g.met, g.done, g.half = nil, false, time.Time{}
		return sightBad, &failure{reason: ReasonFile, err: err}
	}
	if g.meet(before, now); g.done && !g.young(now) {
		return sightSame, nil
	}
	return g.take(before, now)
}

// meet notes what the file looks like now.
func (g *glance) meet(info fs.FileInfo, now time.Time) {
	if g.met == nil || changed(g.met, info) {
		g.metAt, g.done = now, false
	}
	g.met = info
}

// young tells that the file may have been rewritten without a new modification time.
// The age counts from our own first sight of it where that is later: a share's clock
// may be behind. One look more is for a rewrite just before the end of that time.
func (g *glance) young(now time.Time) bool {
	born := g.metAt
	if g.met.ModTime().After(born) {
		born = g.met.ModTime()
	}
	return now.Sub(born) < youngFor+g.every
}

func changed(a, b fs.FileInfo) bool {
	return !os.SameFile(a, b) || a.Size() != b.Size() || !a.ModTime().Equal(b.ModTime())
}

// take reads the file, and takes its content unless it is still being written.
func (g *glance) take(before fs.FileInfo, now time.Time) (sight, *failure) {
	if before.Size() > g.limit {
		return sightBad, g.tooLarge()
	}
	body, err := g.read()
	if err != nil {
		return sightBad, &failure{reason: ReasonFile, err: unreadable(g.path, err)}
	}
	after, err := os.Stat(g.path)
	if writing := err != nil || changed(before, after); writing && g.mayBeHalf(now) {
		return sightWait, nil
	}
	if int64(len(body)) > g.limit {
		return sightBad, g.tooLarge()
	}
	return g.judge(body, now)
}

// judge takes body unless check refuses it or it is shorter than the last. Both get the
// grace: the beginning of a file that is written anew is often nothing, or half.
func (g *glance) judge(body []byte, now time.Time) (sight, *failure) {
	if g.heard && bytes.Equal(body, g.body) { // checked when it was new
		g.half, g.done = time.Time{}, true
		return sightSame, nil
	}
	if g.check != nil {
		if err := g.check(body); err != nil {
			if g.mayBeHalf(now) {
				return sightWait, nil
			}
			g.blank = len(bytes.TrimSpace(body)) == 0
			return sightBad, &failure{reason: ReasonNotPGN, err: fmt.Errorf("feed file %s: %w; is this the PGN file?", g.path, err)}
		}
	}
	if len(body) < len(g.body) && g.mayBeHalf(now) {
		return sightWait, nil
	}
	g.half, g.done = time.Time{}, true
	g.heard, g.body = true, body
	return sightNew, nil
}

// mayBeHalf tells whether the file may still be half written at now.
func (g *glance) mayBeHalf(now time.Time) bool {
	if g.half.IsZero() {
		g.half = now
	}
	return now.Sub(g.half) < grace
}

func (g *glance) tooLarge() *failure {
	return &failure{reason: ReasonTooLarge, err: fmt.Errorf("feed file %s is larger than %d bytes; is this the PGN file? If so, raise the size limit", g.path, g.limit)}
}

func (g *glance) readAll() ([]byte, error) {
	file, err := os.Open(g.path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(io.LimitReader(file, g.limit+1))
}
