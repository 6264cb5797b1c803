package journal

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
)

// salvage sets a damaged file aside and puts what was readable of it into a new
// one of the same name. It returns what there is to say about it, and whether
// there is a new file. Killed at any moment, it is done again or ended at the
// next start, see tidy.
func salvage(ctx context.Context, path string, f *finding) (text string, kept bool, err error) {
	name := filepath.Base(path)
	if kept = len(f.segments) > 0; kept {
		if err := create(path, f.about, func(to *store) error { return f.copyTo(ctx, path, to) }); err != nil {
			return "", false, fmt.Errorf("save what is readable of the damaged %s: %w", name, err)
		}
	}
	aside, err := setAside(path)
	if err != nil {
		return "", false, fmt.Errorf("set the damaged %s aside: %w", name, err)
	}
	aside = filepath.Base(aside)
	if !kept {
		return fmt.Sprintf("%s could not be read (%v) and is kept as %s; nothing of it was left", name, f.damage, aside), false, nil
	}
	return fmt.Sprintf("%s was damaged (%v) and is kept as %s; %d events up to %s were saved, what came after is cut",
		name, f.damage, aside, f.events, f.last.Format("2006-01-02 15:04:05 MST")), true, complete(path)
}

// copyTo copies the rows that were readable, and the log that belongs to them.
func (f *finding) copyTo(ctx context.Context, path string, to *store) (err error) {
	from, err := openForgiving(path)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, from.Close()) }()
	var rows []row
	var size int64
	first := f.segments[0]
	next := first
	for s, err := range scan(ctx, from, first) {
		if err != nil && !isDamage(err) {
			return err
		}
		if err != nil || s.seq >= f.next {
			break
		}
		rows = append(rows, s.row)
		next += int64(s.n)
		if size += s.size(); len(rows) == chunkRows || size >= chunkBytes {
			if err := to.write(first, rows, nil); err != nil {
				return err
			}
			first, rows, size = next, rows[:0], 0
		}
	}
	if next != f.next {
		return damaged("record %d could be read a moment ago", next)
	}
	return to.write(first, rows, f.readableLog(ctx, from))
}

// readableLog returns the log up to the last event that was saved, as far as it
// can be read.
func (f *finding) readableLog(ctx context.Context, db *sql.DB) []LogEntry {
	entries, _ := queryLog(ctx, db, LogQuery{Until: f.last, Limit: -1})
	return entries
}
