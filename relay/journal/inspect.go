package journal

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"
)

// finding is what a look through a whole file tells.
type finding struct {
	about
	next     int64     // number that the next record gets
	last     time.Time // of the last event; if there is none, when the show began
	segments []int64   // numbers of the records with which segments begin
	size     int64     // of the last segment
	events   uint64
	unknown  map[string]int
	damage   error // what is wrong with the file; all else is about what comes before
}

// inspect reads a file through. The error is about what keeps it from being
// read; that it is damaged is a finding.
func inspect(ctx context.Context, path string) (f finding, err error) {
	if f.damage, err = f.look(ctx, path, openReader, true); f.damage != nil {
		f = finding{damage: f.damage}
		_, err = f.look(ctx, path, openForgiving, false)
	}
	return f, err
}

// look reads a file through, and lets SQLite check it first if that is asked.
func (f *finding) look(ctx context.Context, path string, open func(string) (*sql.DB, error), check bool) (damage, err error) {
	db, err := open(path)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	if f.about, damage = readAbout(ctx, db); damage == nil && check {
		damage = quickCheck(ctx, db)
	}
	f.last = f.began
	if damage == nil || !check {
		damage = f.rows(ctx, db)
	}
	if damage != nil && !isDamage(damage) {
		return nil, damage
	}
	return damage, nil
}

// rows reads all records, up to the first that cannot be read.
func (f *finding) rows(ctx context.Context, db *sql.DB) error {
	f.unknown = make(map[string]int)
	w := walk{unknown: func(kind string) { f.unknown[kind]++ }}
	for s, err := range scan(ctx, db, 0) {
		if err != nil {
			return err
		}
		events, err := w.take(s)
		if err != nil {
			return err
		}
		if s.kind == kindSegment {
			f.segments, f.size = append(f.segments, s.seq), 0
		}
		if len(events) > 0 {
			f.last = events[len(events)-1].When()
		}
		f.next, f.size, f.events = s.seq+int64(s.n), f.size+s.size(), f.events+uint64(len(events))
	}
	if len(f.segments) == 0 {
		return damaged("it has no beginning")
	}
	return nil
}

// quickCheck lets SQLite look for damage.
func quickCheck(ctx context.Context, db *sql.DB) error {
	var found string
	if err := db.QueryRowContext(ctx, "PRAGMA quick_check(1)").Scan(&found); err != nil {
		return err
	}
	if found != "ok" {
		return damaged("%s", strings.Join(strings.Fields(found), " "))
	}
	return nil
}

// unknownText says which kinds of records were left out; "" if none.
func unknownText(unknown map[string]int) string {
	var kinds []string
	for _, kind := range slices.Sorted(maps.Keys(unknown)) {
		kinds = append(kinds, fmt.Sprintf("%d of kind %q", unknown[kind], kind))
	}
	if kinds == nil {
		return ""
	}
	return "records that this version does not know were left out: " + strings.Join(kinds, ", ")
}
