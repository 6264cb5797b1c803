package journal

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"strconv"
	"time"
)

// ErrNewer says that a later version of this program wrote a file.
var ErrNewer = errors.New("a later version of this program wrote it: use that one, or begin a fresh show")

var tables = []string{
	`CREATE TABLE meta(key TEXT PRIMARY KEY, value TEXT NOT NULL)`,
	`CREATE TABLE record(seq INTEGER PRIMARY KEY, at INTEGER NOT NULL, kind TEXT NOT NULL, feed TEXT NOT NULL,
		board INTEGER NOT NULL, n INTEGER NOT NULL, key INTEGER NOT NULL, crc INTEGER NOT NULL, body BLOB NOT NULL)`,
	`CREATE TABLE log(seq INTEGER PRIMARY KEY, at INTEGER NOT NULL, board INTEGER NOT NULL, kind TEXT NOT NULL,
		ply INTEGER NOT NULL, was TEXT NOT NULL, is_ TEXT NOT NULL, text TEXT NOT NULL)`,
	`CREATE INDEX log_board ON log(board, seq)`,
	`CREATE INDEX log_kind ON log(kind, seq)`,
	`CREATE INDEX log_at ON log(at)`,
}

// open opens a database with a fixed number of connections at most. Nothing is
// read yet.
func open(path, query string, connections int) (*sql.DB, error) {
	name, err := uri(path, query)
	if err != nil {
		return nil, err
	}
	db, err := sql.Open("sqlite", name)
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(connections)
	db.SetMaxIdleConns(connections)
	return db, nil
}

func openReader(path string) (*sql.DB, error) {
	return open(path, fmt.Sprintf("mode=ro&_pragma=busy_timeout(%d)&_pragma=trusted_schema(0)", busyFor.Milliseconds()), readersMost)
}

// openForgiving opens a damaged file: with a writable schema SQLite reads files,
// too, that are shorter than they say.
func openForgiving(path string) (*sql.DB, error) {
	return open(path, "mode=ro&_pragma=writable_schema(1)&_pragma=trusted_schema(0)", 1)
}

// create makes a new file with the tables, under a name that tells that it is
// not complete, lets fill put something in it, and closes it. complete gives it
// its name.
func create(path string, about about, fill func(*store) error) (err error) {
	if err := remove(path + newSuffix); err != nil {
		return err
	}
	db, err := open(path+newSuffix, "mode=rwc", 1)
	if err != nil {
		return err
	}
	if err := furnish(db, about); err != nil {
		return errors.Join(err, db.Close())
	}
	if err := db.Close(); err != nil {
		return err
	}
	s, err := openStore(path+newSuffix, checkpointMost)
	if err != nil {
		return err
	}
	return errors.Join(fill(s), s.close())
}

// complete gives a file that create made its name.
func complete(path string) error { return os.Rename(path+newSuffix, path) }

// about is what the meta table tells.
type about struct {
	title string
	plan  string
	began time.Time
	epoch string // of the show on the bus; "" it is not shared
}

func furnish(db *sql.DB, a about) error {
	statements := []string{
		fmt.Sprintf("PRAGMA page_size=%d", pageBytes), "PRAGMA auto_vacuum=INCREMENTAL", "PRAGMA journal_mode=WAL",
		"BEGIN", fmt.Sprintf("PRAGMA application_id=%d", applicationID), fmt.Sprintf("PRAGMA user_version=%d", schemaVersion),
	}
	for _, s := range append(statements, tables...) {
		if _, err := db.Exec(s); err != nil {
			return err
		}
	}
	_, err := db.Exec(`INSERT INTO meta VALUES('schema', ?), ('title', ?), ('plan', ?), ('began', ?)`,
		strconv.Itoa(schemaVersion), a.title, a.plan, strconv.FormatInt(stamp(a.began), 10))
	if err != nil {
		return err
	}
	if a.epoch != "" {
		if _, err = db.Exec(`INSERT INTO meta VALUES('epoch', ?)`, a.epoch); err != nil {
			return err
		}
	}
	_, err = db.Exec("COMMIT")
	return err
}

// readAbout reads what the meta table tells. The version is written twice, so
// that one flipped bit is not taken for a later version.
func readAbout(ctx context.Context, db *sql.DB) (about, error) {
	var id, version int64
	var a about
	if err := db.QueryRowContext(ctx, "PRAGMA application_id").Scan(&id); err != nil {
		return a, err
	}
	if id != applicationID {
		return a, ErrNotJournal
	}
	if err := db.QueryRowContext(ctx, "PRAGMA user_version").Scan(&version); err != nil {
		return a, err
	}
	var again, began string
	err := db.QueryRowContext(ctx, `SELECT (SELECT value FROM meta WHERE key='schema'), (SELECT value FROM meta WHERE key='title'),
		(SELECT value FROM meta WHERE key='plan'), (SELECT value FROM meta WHERE key='began'),
		(SELECT coalesce(max(value), '') FROM meta WHERE key='epoch')`).Scan(&again, &a.title, &a.plan, &began, &a.epoch)
	if err != nil {
		return a, err
	}
	if version > schemaVersion && again == strconv.FormatInt(version, 10) {
		return a, ErrNewer
	}
	ns, err := strconv.ParseInt(began, 10, 64)
	if version != schemaVersion || again != strconv.Itoa(schemaVersion) || err != nil {
		return a, damaged("its description does not make sense")
	}
	a.began = timeOf(ns)
	return a, nil
}
