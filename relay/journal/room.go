package journal

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// keepHouse does what keeps the files small, a little at a time: events wait
// meanwhile.
func (j *Journal) keepHouse() {
	if j.store == nil {
		return
	}
	if j.walPages >= j.o.checkpointPages() {
		j.walPages = 0
		j.failed(j.store.checkpoint())
		j.trimming = j.excess() > 0
	}
	if j.trimming {
		more, err := j.trim()
		j.trimming = more
		j.failed(err)
	}
}

// failed counts an error that costs nothing but room.
func (j *Journal) failed(err error) {
	if err != nil {
		j.note(func(s *Stats) { s.Failures++ })
	}
}

// excess returns by how many bytes the folder is too large. What may be written
// until it is looked at again is counted in.
func (j *Journal) excess() int64 {
	entries, _ := os.ReadDir(j.o.Dir)
	var total int64
	for _, entry := range entries {
		if info, err := entry.Info(); err == nil && strings.HasPrefix(entry.Name(), namePrefix) {
			total += info.Size()
		}
	}
	return total - j.o.MaxBytes + min(j.o.MaxBytes/4, walBytesMost)
}

// trim makes some room; more tells that there is more to do.
func (j *Journal) trim() (more bool, err error) {
	excess := j.excess()
	if excess <= 0 {
		return false, nil
	}
	if dropped, err := j.dropShow(); dropped || err != nil {
		return err == nil, err
	}
	free, err := j.store.number("freelist_count")
	if err != nil {
		return false, err
	}
	if free*pageBytes < excess && len(j.segments) > 1 {
		return true, j.dropRows()
	}
	if free == 0 {
		return false, nil // nothing left to give
	}
	return true, j.giveBack()
}

// giveBack returns free pages to the file system.
func (j *Journal) giveBack() error {
	if _, err := j.store.conn.ExecContext(always, fmt.Sprintf("PRAGMA incremental_vacuum(%d)", trimPages)); err != nil {
		return err
	}
	return j.store.checkpoint() // the file shrinks only now
}

// dropRows deletes some rows of the oldest segment. Readers leave the rest of it
// out from the first row on, because it has no beginning any more.
func (j *Journal) dropRows() error {
	second := j.segments[1]
	result, err := j.store.conn.ExecContext(always,
		`DELETE FROM record WHERE seq IN (SELECT seq FROM record WHERE seq < ? ORDER BY seq LIMIT ?)`, second, trimRows)
	if err != nil {
		return err
	}
	if n, err := result.RowsAffected(); err != nil || n == trimRows {
		return err
	}
	var at int64
	if err := j.store.conn.QueryRowContext(always, "SELECT at FROM record WHERE seq = ?", second).Scan(&at); err != nil {
		return err
	}
	if _, err := j.store.conn.ExecContext(always, "DELETE FROM log WHERE at < ?", at); err != nil {
		return err
	}
	gone := uint64(second - j.segments[0])
	j.segments = j.segments[1:]
	j.note(func(s *Stats) { s.SegmentsDropped, s.Dropped = s.SegmentsDropped+1, s.Dropped+gone })
	j.report(&j.dropped, fmt.Sprintf("the beginning of %s, up to %s, to stay within %d MiB",
		filepath.Base(j.path), timeOf(at).Format("2006-01-02 15:04:05 MST"), j.o.MaxBytes>>20))
	return j.store.checkpoint()
}

// dropShows makes room by deleting other shows, as many as it takes.
func (j *Journal) dropShows() error {
	for j.excess() > 0 {
		if dropped, err := j.dropShow(); !dropped || err != nil {
			return err
		}
	}
	return nil
}

// dropShow deletes the oldest other show, damaged ones among them; false if
// there is none.
func (j *Journal) dropShow() (bool, error) {
	found, err := filepath.Glob(filepath.Join(globbed(j.o.Dir), namePrefix+"*"+nameSuffix+"*"))
	if err != nil {
		return false, err
	}
	slices.Sort(found)
	for _, path := range found {
		if filepath.Base(path) == filepath.Base(j.path) || isSibling(path) {
			continue
		}
		if err := remove(path); err != nil {
			return false, err
		}
		j.note(func(s *Stats) { s.ShowsDropped++ })
		j.report(&j.dropped, fmt.Sprintf("%s, to stay within %d MiB", filepath.Base(path), j.o.MaxBytes>>20))
		return true, nil
	}
	return false, nil
}

func isSibling(path string) bool {
	return slices.ContainsFunc(siblings, func(suffix string) bool { return strings.HasSuffix(path, suffix) })
}
