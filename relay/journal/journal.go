package journal

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"iter"
	"os"
	"path/filepath"
	"sync"

	"clocktell/relay"
)

// Journal is the journal of one show, open for writing. Run and Close belong to
// one goroutine; all else may be called from any.
type Journal struct {
	o    Options
	lock *lock
	path string // changed by Run only, and under mu

	// Run's own.
	store    *store
	pack     packer
	next     int64   // number of the next record
	segments []int64 // numbers of the records with which segments begin
	size     int64   // of the last segment
	walPages int64   // about how many were written since the last checkpoint
	kept     []row   // sent on, not written yet
	keptSize int64
	run      answers // at the end of kept
	lost     uint64  // events not to be written any more, after kept
	health   health
	trimming bool // the folder is too large

	mu         sync.Mutex // protects what follows
	readers    *sql.DB
	logWaiting []LogEntry
	cut        []string
	dropped    []string
	stats      Stats
}

// Open locks the folder and opens its newest show, or begins one: if there is
// none, if it is older than ResumeWithin, or if a fresh one is asked for. A
// damaged file is never in the way: see Cut. Errors are ErrInUse, ErrNewer and
// those of the file system.
func Open(ctx context.Context, o Options) (*Journal, error) {
	j := &Journal{o: o.withDefaults()}
	if err := j.open(ctx); err != nil {
		return nil, errors.Join(fmt.Errorf("journal in %s: %w", o.Dir, err), j.Close())
	}
	return j, nil
}

func (j *Journal) open(ctx context.Context) (err error) {
	if err := os.MkdirAll(j.o.Dir, 0o755); err != nil {
		return err
	}
	if j.lock, err = lockFolder(j.o.Dir); err != nil {
		return err
	}
	if err := tidy(j.o.Dir); err != nil {
		return err
	}
	if j.o.Shared != nil {
		return j.openShared(ctx)
	}
	f, found, err := j.newest(ctx)
	if err != nil {
		return err
	}
	if !found || j.o.Now().Sub(f.last) >= j.o.ResumeWithin {
		if f, err = j.begin(); err != nil {
			return fmt.Errorf("begin a show: %w", err)
		}
	}
	if err = j.attach(&f); err != nil && isDamage(err) {
		_, err = j.replace(ctx, err)
	}
	if err != nil {
		return fmt.Errorf("open %s: %w", filepath.Base(j.path), err)
	}
	return j.dropShows()
}

// newest looks for a show that can be continued and mends it if need be.
func (j *Journal) newest(ctx context.Context) (f finding, found bool, err error) {
	shows, err := showsIn(j.o.Dir)
	if err != nil || j.o.Fresh || len(shows) == 0 {
		return f, false, err
	}
	j.setPath(shows[len(shows)-1])
	return j.examine(ctx, nil)
}

// examine inspects the file and, if it is damaged or known to be, saves what is
// readable. It tells whether there is something to go on with.
func (j *Journal) examine(ctx context.Context, known error) (f finding, found bool, err error) {
	if f, err = inspect(ctx, j.path); err != nil {
		return f, false, fmt.Errorf("read %s: %w", filepath.Base(j.path), err)
	}
	found, f.damage = true, cmp.Or(f.damage, known)
	if f.damage != nil {
		j.describe(&f)
		var text string
		if text, found, err = salvage(ctx, j.path, &f); err != nil {
			return f, false, err
		}
		j.report(&j.cut, text)
	}
	if text := unknownText(f.unknown); text != "" {
		j.report(&j.cut, filepath.Base(j.path)+": "+text)
	}
	return f, found, nil
}

// describe makes up for a description that could not be read.
func (j *Journal) describe(f *finding) {
	if f.title == "" {
		f.title = j.o.Title
	}
	if f.began.IsZero() {
		f.began = j.o.Now()
	}
	if f.last.IsZero() {
		f.last = f.began
	}
}

// begin makes the file of a new show.
func (j *Journal) begin() (finding, error) {
	now := j.o.Now()
	f := finding{about: about{title: j.o.Title, plan: j.o.Plan, began: now}, next: 2, segments: []int64{1}, last: now}
	j.setPath(nameFor(j.o.Dir, now))
	err := create(j.path, f.about, func(s *store) error {
		return s.write(1, []row{segmentRow(stamp(now), 0)}, nil)
	})
	if err == nil {
		err = complete(j.path)
	}
	return f, err
}

// attach opens the file for writing and reading, from where the finding says.
func (j *Journal) attach(f *finding) (err error) {
	if j.store, err = openStore(j.path, walPagesFactor*j.o.checkpointPages()); err != nil {
		return err
	}
	readers, err := openReader(j.path)
	if err != nil {
		return err
	}
	j.next, j.segments, j.size = f.next, f.segments, f.size
	j.mu.Lock()
	j.readers = readers
	j.mu.Unlock()
	title, plan := cmp.Or(j.o.Title, f.title), cmp.Or(j.o.Plan, f.plan)
	if title == f.title && plan == f.plan {
		return nil
	}
	_, err = j.store.conn.ExecContext(always, "INSERT OR REPLACE INTO meta VALUES('title', ?), ('plan', ?)", title, plan)
	return err
}

// Records returns what has been written, in order, for restoring the show. An
// error ends it.
func (j *Journal) Records() iter.Seq2[Record, error] {
	j.mu.Lock()
	defer j.mu.Unlock()
	return records(context.Background(), j.readers, func(string) {})
}

// Path returns the name of the show's file.
func (j *Journal) Path() string {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.path
}

func (j *Journal) setPath(path string) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.path = path
}

// Close writes what still waits and gives the folder up. It must not be called
// before Run has returned.
func (j *Journal) Close() error {
	var errs []error
	if j.store != nil {
		errs = append(errs, j.flush())
	}
	errs = append(errs, j.detach())
	if j.lock != nil {
		errs = append(errs, j.lock.close())
		j.lock = nil
	}
	return errors.Join(errs...)
}

// detach closes the file.
func (j *Journal) detach() error {
	var errs []error
	j.mu.Lock()
	readers := j.readers
	j.mu.Unlock()
	if readers != nil {
		errs = append(errs, readers.Close()) // stays set, for whoever asks later: it says that it is closed
	}
	if j.store != nil {
		errs = append(errs, j.store.close())
		j.store = nil
	}
	return errors.Join(errs...)
}

var _ relay.Event = relay.JournalState{}
