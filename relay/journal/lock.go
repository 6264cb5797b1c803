package journal

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	sqlite3 "modernc.org/sqlite/lib"
)

// ErrInUse says that another process writes to the folder.
var ErrInUse = errors.New("another show is running in this folder: stop it, or name another folder")

// lock keeps other processes out of a folder: an exclusive transaction on a
// database that stays empty. The operating system gives it up when the process
// ends, however it does.
type lock struct {
	db   *sql.DB
	conn *sql.Conn
}

func lockFolder(dir string) (*lock, error) {
	path := filepath.Join(dir, lockName)
	l, err := takeLock(path)
	if code := codeOf(err); code == sqlite3.SQLITE_NOTADB || code == sqlite3.SQLITE_CORRUPT {
		if err := os.Remove(path); err != nil { // nobody can hold a file that is no database
			return nil, err
		}
		l, err = takeLock(path)
	}
	if codeOf(err) == sqlite3.SQLITE_BUSY {
		return nil, ErrInUse
	}
	if err != nil {
		return nil, fmt.Errorf("lock the folder by %s: %w", lockName, err)
	}
	return l, nil
}

func takeLock(path string) (*lock, error) {
	db, err := open(path, "mode=rwc&_pragma=busy_timeout(0)&_pragma=locking_mode(EXCLUSIVE)&_pragma=journal_mode(MEMORY)", 1)
	if err != nil {
		return nil, err
	}
	l := &lock{db: db}
	if l.conn, err = db.Conn(context.Background()); err != nil {
		return nil, errors.Join(err, db.Close())
	}
	if _, err := l.conn.ExecContext(context.Background(), "BEGIN EXCLUSIVE"); err != nil {
		return nil, errors.Join(err, l.close())
	}
	return l, nil
}

func (l *lock) close() error {
	return errors.Join(l.conn.Close(), l.db.Close())
}
