package journal

import (
	"context"
	"errors"
	"fmt"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// errRuined says that a damaged file could not be replaced.
var errRuined = errors.New("the file is damaged and could not be replaced")

// ErrNotJournal says that a file is something else.
var ErrNotJournal = errors.New("this is not the journal of a show")

// damaged says what is wrong with a file. Whatever reading it says is taken for
// damage, see isDamage; this is for what SQLite does not see.
func damaged(format string, args ...any) error { return fmt.Errorf(format, args...) }

// isDamage tells whether an error of reading a file comes from what is in it,
// and not from its surroundings: permissions, locks, a context that has ended.
func isDamage(err error) bool {
	if errors.Is(err, ErrNewer) || errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return false
	}
	switch codeOf(err) {
	case sqlite3.SQLITE_PERM, sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, sqlite3.SQLITE_NOMEM, sqlite3.SQLITE_READONLY,
		sqlite3.SQLITE_INTERRUPT, sqlite3.SQLITE_FULL, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PROTOCOL, sqlite3.SQLITE_AUTH:
		return false
	}
	return err != nil
}

// isRuined tells whether an error of writing says that the file itself is
// broken, so that trying again will not help.
func isRuined(err error) bool {
	code := codeOf(err)
	return errors.Is(err, errRuined) || code == sqlite3.SQLITE_CORRUPT || code == sqlite3.SQLITE_NOTADB
}

// codeOf returns SQLite's primary result code, 0 if the error is another one.
func codeOf(err error) int {
	var e *sqlite.Error
	if errors.As(err, &e) {
		return e.Code() & 0xff
	}
	return 0
}
