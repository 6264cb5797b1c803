package journal

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// store is the writing connection to a show's file. It belongs to one goroutine.
type store struct {
	path   string
	db     *sql.DB
	conn   *sql.Conn
	put    *sql.Stmt // a record
	putLog *sql.Stmt
	begin  *sql.Stmt
	commit *sql.Stmt
	undo   *sql.Stmt
}

// always is the context of writing: what has begun is finished.
var always = context.Background()

// openStore opens a file that create has made. After so many pages in the -wal a
// commit moves them to the file, if checkpoint has not.
func openStore(path string, walPages int64) (*store, error) {
	db, err := open(path, "mode=rw", 1)
	if err != nil {
		return nil, err
	}
	s := &store{path: path, db: db}
	if s.conn, err = db.Conn(always); err != nil {
		return nil, errors.Join(err, db.Close())
	}
	if err := s.prepare(walPages); err != nil {
		return nil, errors.Join(err, s.close())
	}
	return s, nil
}

func (s *store) prepare(walPages int64) error {
	for _, pragma := range []string{
		fmt.Sprintf("busy_timeout=%d", busyFor.Milliseconds()),
		"journal_mode=WAL", "synchronous=FULL", // a commit is synced before it counts
		fmt.Sprintf("wal_autocheckpoint=%d", walPages), fmt.Sprintf("journal_size_limit=%d", walPages*(pageBytes+walFrameBytes)),
		"temp_store=MEMORY", "trusted_schema=OFF", "cell_size_check=ON",
	} {
		if _, err := s.conn.ExecContext(always, "PRAGMA "+pragma); err != nil {
			return err
		}
	}
	for _, p := range []struct {
		to  **sql.Stmt
		sql string
	}{
		{&s.put, "INSERT INTO record(seq, at, kind, feed, board, n, key, crc, body) VALUES(?,?,?,?,?,?,?,?,?)"},
		{&s.putLog, "INSERT OR IGNORE INTO log(seq, at, board, kind, ply, was, is_, text) VALUES(?,?,?,?,?,?,?,?)"},
		{&s.begin, "BEGIN IMMEDIATE"}, {&s.commit, "COMMIT"}, {&s.undo, "ROLLBACK"},
	} {
		stmt, err := s.conn.PrepareContext(always, p.sql)
		if err != nil {
			return err
		}
		*p.to = stmt
	}
	return nil
}

// write puts rows, of which the first gets the number next, and log entries into
// the file, all or none. When it returns they are on the disk.
func (s *store) write(next int64, rows []row, entries []LogEntry) error {
	if len(rows) == 1 && len(entries) == 0 {
		return s.putRow(next, &rows[0]) // a statement alone is a transaction, and two calls less
	}
	if _, err := s.begin.Exec(); err != nil {
		return err
	}
	err := s.putAll(next, rows, entries)
	if err == nil {
		_, err = s.commit.Exec()
	}
	if err != nil {
		s.undo.Exec() // fails if SQLite has already done it
	}
	return err
}

func (s *store) putAll(next int64, rows []row, entries []LogEntry) error {
	for i := range rows {
		if err := s.putRow(next, &rows[i]); err != nil {
			return err
		}
		next += int64(rows[i].n)
	}
	for _, e := range entries {
		if _, err := s.putLog.Exec(e.Seq, stamp(e.At), e.Board, e.Kind, e.Ply, e.Was, e.Is, e.Text); err != nil {
			return err
		}
	}
	return nil
}

func (s *store) putRow(seq int64, r *row) error {
	body := r.body
	if body == nil {
		body = []byte{} // nil would be NULL
	}
	_, err := s.put.Exec(seq, r.at, r.kind, r.feed, r.board, r.n, bit(r.key), r.sum(seq), body)
	return err
}

// checkpoint moves what is in the -wal to the file, as far as readers allow.
func (s *store) checkpoint() error {
	_, err := s.conn.ExecContext(always, "PRAGMA wal_checkpoint(PASSIVE)")
	return err
}

// number returns what a PRAGMA says.
func (s *store) number(pragma string) (n int64, err error) {
	err = s.conn.QueryRowContext(always, "PRAGMA "+pragma).Scan(&n)
	return n, err
}

// close closes the connection. SQLite then puts what is in the -wal into the file
// and deletes it, unless somebody else reads.
func (s *store) close() error {
	var errs []error
	for _, stmt := range []*sql.Stmt{s.put, s.putLog, s.begin, s.commit, s.undo} {
		if stmt != nil { // an open statement would keep the connection open
			errs = append(errs, stmt.Close())
		}
	}
	return errors.Join(append(errs, s.conn.Close(), s.db.Close())...)
}
