package main

import (
	"database/sql"
	"errors"

	_ "modernc.org/sqlite"
)

type sqliteStore struct {
	db    *sql.DB
	query *sql.Stmt
	value sql.RawBytes
}

// rowID keeps the order of positions among signed numbers.
func rowID(position uint64) int64 { return int64(position ^ 1<<63) }

func (q *sqliteStore) at(path string, pragmas ...string) (err error) {
	if q.db, err = sql.Open("sqlite", path); err != nil {
		return err
	}
	q.db.SetMaxOpenConns(1)
	for _, p := range pragmas {
		if _, err := q.db.Exec("PRAGMA " + p); err != nil {
			return err
		}
	}
	return nil
}

func (q *sqliteStore) build(s *setup) error {
	if err := q.at(s.path("sqlite"), "journal_mode=OFF", "synchronous=OFF", "cache_size=-65536"); err != nil {
		return err
	}
	if _, err := q.db.Exec("CREATE TABLE position(id INTEGER PRIMARY KEY, value BLOB)"); err != nil {
		return err
	}
	tx, err := q.db.Begin()
	if err != nil {
		return err
	}
	insert, err := tx.Prepare("INSERT INTO position VALUES (?, ?)")
	if err != nil {
		return err
	}
	err = s.grouped(func(position uint64, value []byte) error {
		_, err := insert.Exec(rowID(position), value)
		return err
	})
	return errors.Join(err, insert.Close(), tx.Commit(), q.db.Close())
}

func (q *sqliteStore) open(path string) (err error) {
	if err := q.at(path, "query_only=1", "mmap_size=4294967296", "cache_size=-65536"); err != nil {
		return err
	}
	q.query, err = q.db.Prepare("SELECT value FROM position WHERE id = ?")
	return err
}

func (q *sqliteStore) get(position uint64) (bool, error) {
	rows, err := q.query.Query(rowID(position))
	if err != nil {
		return false, err
	}
	found := rows.Next()
	if found {
		err = rows.Scan(&q.value)
	}
	return found, errors.Join(err, rows.Close())
}

func (q *sqliteStore) close() error { return errors.Join(q.query.Close(), q.db.Close()) }
