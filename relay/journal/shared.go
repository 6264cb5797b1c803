package journal

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"time"

	"clocktell/relay"
)

// Shared is a show that several processes share over a bus. Each keeps a journal of it, and
// what the bus holds is what has happened: so at a start the file is written anew, in one
// step, and all journals of the show hold the same.
type Shared struct {
	Epoch string // tells one show on the bus from others; its file is replaced
	Began time.Time
	Past  []relay.Event // what has happened, as it is written
	Was   string        // a file that is replaced, because all of it is in Past; "" none
}

// openShared begins the file of a shared show.
func (j *Journal) openShared(ctx context.Context) error {
	was, err := j.replaced(ctx)
	if err != nil {
		return err
	}
	s := j.o.Shared
	path := nameFor(j.o.Dir, s.Began)
	if len(was) > 0 {
		path = was[0]
	}
	j.setPath(path)
	f := finding{about: about{title: j.o.Title, plan: j.o.Plan, began: s.Began, epoch: s.Epoch}, next: 1, segments: []int64{1}, last: s.Began}
	if err := create(j.path, f.about, func(to *store) error { return j.writePast(to, &f) }); err != nil {
		return fmt.Errorf("write down what the bus holds of the show: %w", err)
	}
	for _, file := range was {
		if err := remove(file); err != nil {
			return err
		}
	}
	if err := complete(j.path); err != nil {
		return err
	}
	if err := j.attach(&f); err != nil {
		return fmt.Errorf("open %s: %w", filepath.Base(j.path), err)
	}
	return j.dropShows()
}

// writePast writes a segment with all that has happened.
func (j *Journal) writePast(to *store, f *finding) error {
	rows := append([]row{segmentRow(stamp(f.began), 0)}, j.rows(j.o.Shared.Past, false)...)
	for chunk := range slices.Chunk(rows, chunkRows) {
		if err := to.write(f.next, chunk, nil); err != nil {
			return err
		}
		for i := range chunk {
			f.next += int64(chunk[i].n)
			f.size += chunk[i].size()
		}
	}
	return nil
}

// replaced returns the files that hold the show already.
func (j *Journal) replaced(ctx context.Context) ([]string, error) {
	shows, err := showsIn(j.o.Dir)
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(shows, func(path string) bool { return path != j.o.Shared.Was && j.epochOf(ctx, path) != j.o.Shared.Epoch }), nil
}

// epochOf returns the epoch of a file, "" for one that cannot be read: it is left alone.
func (j *Journal) epochOf(ctx context.Context, path string) string {
	db, err := openReader(path)
	if err != nil {
		return ""
	}
	a, err := readAbout(ctx, db)
	if errors.Join(err, db.Close()) != nil {
		return ""
	}
	return a.epoch
}
