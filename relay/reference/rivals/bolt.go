package main

import (
	"errors"

	"go.etcd.io/bbolt"
)

const boltBatch = 200_000 // puts of a transaction

var bucketName = []byte("positions")

type boltStore struct{ db *bbolt.DB }

func (b *boltStore) build(s *setup) error {
	db, err := bbolt.Open(s.path("bbolt"), 0o600, &bbolt.Options{NoSync: true, NoFreelistSync: true, FreelistType: bbolt.FreelistMapType})
	if err != nil {
		return err
	}
	tx, err := db.Begin(true)
	if err != nil {
		return err
	}
	bucket, err := tx.CreateBucketIfNotExists(bucketName)
	if err != nil {
		return err
	}
	n := 0
	err = s.grouped(func(position uint64, value []byte) error {
		if n++; n%boltBatch == 0 {
			if err := tx.Commit(); err != nil {
				return err
			}
			if tx, err = db.Begin(true); err != nil {
				return err
			}
			bucket = tx.Bucket(bucketName)
		}
		bucket.FillPercent = 1 // keys come in order
		return bucket.Put(key(position), append([]byte(nil), value...))
	})
	return errors.Join(err, tx.Commit(), db.Sync(), db.Close())
}

func (b *boltStore) open(path string) (err error) {
	b.db, err = bbolt.Open(path, 0o600, &bbolt.Options{ReadOnly: true})
	return err
}

func (b *boltStore) get(position uint64) (found bool, err error) {
	err = b.db.View(func(tx *bbolt.Tx) error {
		found = tx.Bucket(bucketName).Get(key(position)) != nil
		return nil
	})
	return found, err
}

func (b *boltStore) close() error { return b.db.Close() }
