package journal

import (
	"context"
	"database/sql"
	"fmt"
	"iter"

	"clocktell/relay"
)

const selectRows = `SELECT seq, at, kind, feed, board, n, key, crc, body FROM record WHERE seq >= ? ORDER BY seq`

// scanned is a row as it was found.
type scanned struct {
	seq int64
	row
}

// scan reads rows in order and holds each to its checksum and to the one before.
// An error ends it.
func scan(ctx context.Context, db *sql.DB, from int64) iter.Seq2[*scanned, error] {
	return func(yield func(*scanned, error) bool) {
		rows, err := db.QueryContext(ctx, selectRows, from)
		if err != nil {
			yield(nil, err)
			return
		}
		defer rows.Close()
		next := int64(-1)
		for rows.Next() {
			s, err := scanRow(rows)
			if err == nil && next >= 0 && s.seq != next {
				err = damaged("records %d to %d are missing", next, s.seq-1)
			}
			if err != nil {
				yield(nil, err)
				return
			}
			next = s.seq + int64(s.n)
			if !yield(s, nil) {
				return
			}
		}
		if err := rows.Err(); err != nil {
			yield(nil, err)
		}
	}
}

func scanRow(rows *sql.Rows) (*scanned, error) {
	var s scanned
	var key int64
	var crc uint32
	var body sql.RawBytes
	if err := rows.Scan(&s.seq, &s.at, &s.kind, &s.feed, &s.board, &s.n, &key, &crc, &body); err != nil {
		return nil, damaged("a record cannot be read: %w", err)
	}
	s.key, s.body = key == 1, append([]byte(nil), body...)
	if s.n < 1 || s.sum(s.seq) != crc {
		return nil, damaged("record %d does not fit its checksum", s.seq)
	}
	return &s, nil
}

// Record is one thing that happened.
type Record struct {
	Seq   int64       // grows from record to record, not always by one
	Event relay.Event // of a packet only At, Feed and Parts are set
	Key   bool        // stands, with the key records around it, for all that came before
	Lost  uint64      // how many events are missing right before this one
}

// records reads what happened from the first segment on. unknown is told of
// kinds that a later version wrote.
func records(ctx context.Context, db *sql.DB, unknown func(kind string)) iter.Seq2[Record, error] {
	return func(yield func(Record, error) bool) {
		w := walk{unknown: unknown}
		for s, err := range scan(ctx, db, 0) {
			if err != nil {
				yield(Record{}, err)
				return
			}
			events, err := w.take(s)
			if err != nil {
				yield(Record{}, err)
				return
			}
			for i, e := range events {
				if !yield(Record{Seq: s.seq + int64(i), Event: e, Key: s.key, Lost: w.lost}, nil) {
					return
				}
				w.lost = 0
			}
		}
	}
}

// walk goes through rows in order and takes their events out.
type walk struct {
	unpacker
	unknown func(kind string)
	begun   bool   // a segment has begun; what is before the first is the rest of a deleted one
	keys    bool   // key records count here
	lost    uint64 // before the next event
}

func (w *walk) take(s *scanned) ([]relay.Event, error) {
	if s.kind == kindSegment {
		lost, err := lostOf(&s.row)
		if err != nil {
			return nil, damaged("record %d: %w", s.seq, err)
		}
		w.keys = !w.begun || lost > 0
		w.begun, w.lost = true, w.lost+lost
		return nil, nil
	}
	if !w.begun || s.key && !w.keys {
		return nil, nil
	}
	events, err := w.eventsOf(&s.row)
	if kind, ok := err.(unknownKind); ok {
		w.unknown(string(kind))
		return nil, nil
	}
	if err == nil && len(events) != s.n {
		err = fmt.Errorf("holds %d events, not %d", len(events), s.n)
	}
	if err != nil {
		return nil, damaged("record %d: %w", s.seq, err)
	}
	return events, nil
}
