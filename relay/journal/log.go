package journal

import (
	"cmp"
	"context"
	"database/sql"
	"fmt"
	"math"
	"slices"
	"time"
)

// LogEntry is a line of the show log: something that changed, for people.
type LogEntry struct {
	Seq     int64 // given by whoever derives the log; an entry is written once
	At      time.Time
	Board   int    // 0 if none
	Kind    string // whatever words the log uses
	Ply     int    // 0 if none
	Was, Is string
	Text    string
}

// LogQuery chooses entries. Zero values choose all.
type LogQuery struct {
	Board        int
	Kind         string
	Since, Until time.Time // both inclusive
	Limit        int       // so many, the newest ones; 0 means logLimit, less than 0 all
}

// logLimit is how many entries Log returns if the query names no limit.
const logLimit = 1000

// has tells whether an entry is one of the chosen.
func (q LogQuery) has(e *LogEntry) bool {
	return (q.Board == 0 || e.Board == q.Board) && (q.Kind == "" || e.Kind == q.Kind) &&
		(q.Since.IsZero() || !e.At.Before(q.Since)) && (q.Until.IsZero() || !e.At.After(q.Until))
}

func (q LogQuery) limit() int {
	switch {
	case q.Limit < 0:
		return math.MaxInt
	case q.Limit == 0:
		return logLimit
	}
	return q.Limit
}

// WriteLog takes entries of the show log. They are written with the next commit,
// after flushAfter at the latest, and are visible in Log at once. An entry whose
// Seq is there already is left as it is. The error says that too many wait
// because the disk refuses them; then none of the entries were taken.
func (j *Journal) WriteLog(entries []LogEntry) error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if n := len(j.logWaiting) + len(entries); n > logWaitingMost {
		return fmt.Errorf("journal: %d log entries wait for the disk, more than %d: they can be made again from the records", n, logWaitingMost)
	}
	j.logWaiting = append(j.logWaiting, entries...)
	return nil
}

// Log returns the chosen entries in order, those that still wait for the disk
// too.
func (j *Journal) Log(q LogQuery) ([]LogEntry, error) {
	j.mu.Lock()
	waiting := slices.Clone(j.logWaiting) // before reading: what is written in between is found twice, not never
	db := j.readers
	j.mu.Unlock()
	entries, err := queryLog(context.Background(), db, q)
	if err != nil {
		return nil, fmt.Errorf("journal: read the log: %w", err)
	}
	for i := range waiting {
		at, there := slices.BinarySearchFunc(entries, waiting[i].Seq, func(e LogEntry, seq int64) int { return cmp.Compare(e.Seq, seq) })
		if !there && q.has(&waiting[i]) {
			entries = slices.Insert(entries, at, waiting[i])
		}
	}
	return entries[max(0, len(entries)-q.limit()):], nil
}

// queryLog reads entries from a file. With an error come those before it.
func queryLog(ctx context.Context, db *sql.DB, q LogQuery) ([]LogEntry, error) {
	where, args := "1", []any{}
	add := func(condition string, value any) {
		where, args = where+" AND "+condition, append(args, value)
	}
	if q.Board != 0 {
		add("board = ?", q.Board)
	}
	if q.Kind != "" {
		add("kind = ?", q.Kind)
	}
	if !q.Since.IsZero() {
		add("at >= ?", stamp(q.Since))
	}
	if !q.Until.IsZero() {
		add("at <= ?", stamp(q.Until))
	}
	rows, err := db.QueryContext(ctx, "SELECT seq, at, board, kind, ply, was, is_, text FROM log WHERE "+where+
		" ORDER BY seq DESC LIMIT ?", append(args, int64(q.limit()))...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var entries []LogEntry
	for rows.Next() {
		var e LogEntry
		var at int64
		if err := rows.Scan(&e.Seq, &at, &e.Board, &e.Kind, &e.Ply, &e.Was, &e.Is, &e.Text); err != nil {
			return entries, err
		}
		e.At = timeOf(at)
		entries = append(entries, e)
	}
	slices.Reverse(entries)
	return entries, rows.Err()
}
