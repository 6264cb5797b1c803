package journal

import (
	"fmt"
	"slices"

	sqlite3 "modernc.org/sqlite/lib"
)

// commit writes what is kept and then fresh rows, which have not been sent on.
// What cannot be written is kept for the next time, as far as there is room.
func (j *Journal) commit(fresh []row) {
	j.closeRun()
	err := j.tryCommit(&fresh)
	again := j.health == well
	if isRuined(err) {
		err, again = j.mend(err), true
	}
	if err != nil && again {
		err = j.tryCommit(&fresh)
	}
	j.note(func(s *Stats) { s.LastError = err })
	switch {
	case err == nil:
		j.health = well
	case j.health == well:
		j.health = refused
	}
	j.keep(fresh)
	if j.lost > 0 {
		j.health = losing
	}
	j.note(func(s *Stats) { s.Unwritten = eventsIn(j.kept) })
}

// tryCommit writes all there is. fresh becomes what is still to be written.
func (j *Journal) tryCommit(fresh *[]row) error {
	begins := j.lost > 0 || j.size >= j.o.SegmentBytes
	for n := chunk(j.kept); n < len(j.kept) || begins && n > 0; n = chunk(j.kept) {
		if err := j.write(j.kept[:n], nil); err != nil {
			return err
		}
		j.keptSize -= sizeOf(j.kept[:n])
		j.kept = j.kept[n:]
	}
	if begins {
		return j.beginSegment(fresh)
	}
	if err := j.write(slices.Concat(j.kept, *fresh), j.entries()); err != nil {
		return err
	}
	j.kept, j.keptSize, *fresh = nil, 0, nil
	return nil
}

// beginSegment writes the beginning of a segment and then fresh rows.
func (j *Journal) beginSegment(fresh *[]row) error {
	first := j.next
	rows := []row{segmentRow(stamp(j.o.Now()), j.lost)}
	if j.o.Key != nil {
		rows = append(rows, j.rows(j.o.Key(), true)...)
	}
	if err := j.write(append(rows, *fresh...), j.entries()); err != nil {
		return err
	}
	j.note(func(s *Stats) { s.Lost, s.SegmentsBegun = s.Lost+j.lost, s.SegmentsBegun+1 })
	j.segments, j.size, j.lost, *fresh = append(j.segments, first), 0, 0, nil
	return nil
}

// write writes rows and the first log entries of those that wait.
func (j *Journal) write(rows []row, entries []LogEntry) error {
	if len(rows) == 0 && len(entries) == 0 {
		return nil
	}
	began := j.o.Wall()
	if j.store == nil {
		return errRuined // the file could not be mended
	}
	if err := j.store.write(j.next, rows, entries); err != nil {
		j.note(func(s *Stats) { s.Failures++ })
		return err
	}
	took := j.o.Wall().Sub(began)
	defer j.o.Took(took) // behind the lock, which is given back first
	events, written := eventsIn(rows), int64(0)
	for i := range rows {
		j.next += int64(rows[i].n)
		written += rows[i].size()
	}
	j.size += written
	j.walPages += 1 + 3*written/pageBytes + int64(len(entries)) // measured: a full page changes its neighbours
	j.mu.Lock()
	defer j.mu.Unlock()
	j.logWaiting = slices.Delete(j.logWaiting, 0, len(entries))
	j.stats.Records += events
	j.stats.Commits++
	j.stats.LastCommit = took
	j.stats.SlowestCommit = max(j.stats.SlowestCommit, took)
	return nil
}

// keep keeps rows that are sent on unwritten. Beyond the limits they are lost,
// and so is all after them, or the rest would not fit together.
func (j *Journal) keep(rows []row) {
	for i := range rows {
		size := rows[i].size()
		if j.lost > 0 || len(j.kept) >= unwrittenMost || j.keptSize+size > unwrittenBytesMost {
			j.lost += uint64(rows[i].n)
			continue
		}
		j.kept, j.keptSize = append(j.kept, rows[i]), j.keptSize+size
	}
}

// closeRun puts the answers that wait at the end of what is kept.
func (j *Journal) closeRun() {
	if j.run.len() > 0 {
		j.keep([]row{j.run.row()})
		j.run = answers{}
	}
}

// flush writes what is kept; the error says what could not be.
func (j *Journal) flush() error {
	j.commit(nil)
	if n := eventsIn(j.kept) + j.lost; n > 0 {
		return fmt.Errorf("journal: %d events could not be written: %w", n, j.lastError())
	}
	return nil
}

// entries returns the log entries that wait.
func (j *Journal) entries() []LogEntry {
	j.mu.Lock()
	defer j.mu.Unlock()
	return slices.Clone(j.logWaiting)
}

func (j *Journal) lastError() error {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.stats.LastError
}

// advice says what to do about the last error.
func (j *Journal) advice() string {
	switch codeOf(j.lastError()) {
	case sqlite3.SQLITE_FULL:
		return "the disk is full: free some space"
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		return "another program holds it: end that one's writing"
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_CANTOPEN:
		return "give this program the right to write there"
	}
	return "check the disk and the folder"
}

func eventsIn(rows []row) uint64 {
	n := 0
	for i := range rows {
		n += rows[i].n
	}
	return uint64(n)
}

// chunk returns how many of the rows go into one transaction. A larger one would
// have to be written again as a whole when the disk fills up in the middle.
func chunk(rows []row) int {
	size := int64(0)
	for i := range rows {
		if size += rows[i].size(); i+1 == chunkRows || size >= chunkBytes {
			return i + 1
		}
	}
	return len(rows)
}

func sizeOf(rows []row) (size int64) {
	for i := range rows {
		size += rows[i].size()
	}
	return size
}
