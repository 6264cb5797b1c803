package journal

import (
	"strings"
	"time"
)

// Stats are figures of a journal, since it was opened.
type Stats struct {
	FileBytes     int64  // of the show's file and what SQLite keeps beside it, now
	Records       uint64 // written, each event as one
	Commits       uint64
	LastCommit    time.Duration // wall time
	SlowestCommit time.Duration
	LastError     error  // of the last commit; nil if it went well
	Failures      uint64 // commits and clean-ups that failed
	Unwritten     uint64 // records kept in memory because the disk refused them, now
	Lost          uint64 // records for which there was no room in memory either, or that a broken file lost

	Dropped         uint64 // records of this show deleted to make room
	SegmentsBegun   uint64
	SegmentsDropped uint64
	ShowsDropped    uint64 // other shows deleted to make room
}

// Stats returns the figures as they are now.
func (j *Journal) Stats() Stats {
	j.mu.Lock()
	defer j.mu.Unlock()
	s := j.stats
	s.FileBytes = bytesOf(j.path)
	return s
}

func (j *Journal) note(change func(*Stats)) {
	j.mu.Lock()
	defer j.mu.Unlock()
	change(&j.stats)
}

// report adds a line to a report, which keeps the last ones.
func (j *Journal) report(lines *[]string, line string) {
	j.mu.Lock()
	defer j.mu.Unlock()
	*lines = append(*lines, line)
	*lines = (*lines)[max(0, len(*lines)-reportLinesMost):]
}

// Cut says, in lines, what of a damaged file was cut and what was left out; ""
// if nothing.
func (j *Journal) Cut() string {
	j.mu.Lock()
	defer j.mu.Unlock()
	return strings.Join(j.cut, "\n")
}

// Dropped says, in lines, what was deleted to stay within MaxBytes; "" if
// nothing.
func (j *Journal) Dropped() string {
	j.mu.Lock()
	defer j.mu.Unlock()
	return strings.Join(j.dropped, "\n")
}
