package journal

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"iter"
	"os"
	"time"

	sqlite3 "modernc.org/sqlite/lib"
)

// ErrNoShow says that a folder holds no show.
var ErrNoShow = errors.New("there is no show in this folder")

// Recording is a show's file, open for reading. The show may still be writing
// it.
type Recording struct {
	File        string
	Title       string
	Plan        string    // as Options gave it
	Epoch       string    // of the show on the bus; "" it was not shared
	Began       time.Time // when the show began
	First, Last time.Time // of the events that are there; Began if there is none

	db      *sql.DB
	unknown map[string]int
}

// Read opens a recording: a file, or a folder, which means its newest show. The
// error wraps fs.ErrNotExist, ErrNoShow, ErrNotJournal, ErrNewer, or says what is
// damaged. The file is never changed; SQLite may leave an empty -wal and a -shm
// beside it.
func Read(ctx context.Context, file string) (*Recording, error) {
	r := &Recording{File: file, unknown: make(map[string]int)}
	if err := r.open(ctx); err != nil {
		return nil, errors.Join(fmt.Errorf("recording %s: %w", file, err), r.Close())
	}
	return r, nil
}

func (r *Recording) open(ctx context.Context) error {
	info, err := os.Stat(r.File)
	if err != nil {
		return fmt.Errorf("cannot be opened: %w", errors.Unwrap(err))
	}
	if info.IsDir() {
		shows, err := showsIn(r.File)
		if err != nil {
			return err
		}
		if len(shows) == 0 {
			return ErrNoShow
		}
		r.File = shows[len(shows)-1]
	}
	if r.db, err = openReader(r.File); err != nil {
		return err
	}
	err = r.look(ctx)
	if codeOf(err) == sqlite3.SQLITE_CANTOPEN {
		err = r.lookImmutable(ctx, err)
	}
	switch {
	case codeOf(err) == sqlite3.SQLITE_NOTADB:
		return ErrNotJournal
	case isDamage(err) && !errors.Is(err, ErrNotJournal):
		return fmt.Errorf("it is damaged: %w; its folder's newest show is mended when a show starts there", err)
	}
	return err
}

// lookImmutable opens a file where nothing can be written beside it, such as on
// a read-only disk. SQLite needs to be told then that nobody else writes it.
func (r *Recording) lookImmutable(ctx context.Context, failed error) error {
	if info, err := os.Stat(r.File + "-wal"); err == nil && info.Size() > 0 {
		return failed // somebody does, or was killed
	}
	db, err := open(r.File, "mode=ro&immutable=1", readersMost)
	if err != nil {
		return failed
	}
	r.db.Close()
	r.db = db
	return r.look(ctx)
}

// look reads what the recording tells about itself.
func (r *Recording) look(ctx context.Context) error {
	about, err := readAbout(ctx, r.db)
	if err != nil {
		return err
	}
	r.Title, r.Plan, r.Epoch, r.Began, r.First, r.Last = about.title, about.plan, about.epoch, about.began, about.began, about.began
	for record, err := range records(ctx, r.db, func(string) {}) {
		if err != nil {
			return err
		}
		r.First = record.Event.When()
		break
	}
	var last int64
	if err := r.db.QueryRowContext(ctx, "SELECT max(seq) FROM record").Scan(&last); err != nil {
		return damaged("%w", err)
	}
	for s, err := range scan(ctx, r.db, last) {
		if err != nil {
			return err
		}
		if r.Last, err = lastAt(&s.row); err != nil {
			return damaged("record %d: %w", s.seq, err)
		}
	}
	return nil
}

// Records returns what happened, in order, as far as it is written when it
// begins. An error ends it. Only one of them may be read at a time.
func (r *Recording) Records() iter.Seq2[Record, error] {
	clear(r.unknown)
	return records(context.Background(), r.db, func(kind string) { r.unknown[kind]++ })
}

// Unknown says which records the last Records left out, because a later version
// wrote them; "" if none.
func (r *Recording) Unknown() string { return unknownText(r.unknown) }

// Log returns the chosen entries of the show log.
func (r *Recording) Log(q LogQuery) ([]LogEntry, error) {
	return queryLog(context.Background(), r.db, q)
}

// Close closes the file.
func (r *Recording) Close() error {
	if r.db == nil {
		return nil
	}
	return r.db.Close()
}
