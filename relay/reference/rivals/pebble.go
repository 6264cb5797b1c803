package main

import (
	"errors"

	"github.com/cockroachdb/pebble/v2"
	"github.com/cockroachdb/pebble/v2/bloom"
)

const pebbleCache = 256 << 20

type pebbleStore struct{ db *pebble.DB }

type quiet struct{}

func (quiet) Infof(string, ...any)      {}
func (quiet) Errorf(string, ...any)     {}
func (quiet) Fatalf(f string, _ ...any) { panic(f) }

func (p *pebbleStore) at(path string, readOnly bool) error {
	cache := pebble.NewCache(pebbleCache)
	defer cache.Unref()
	o := &pebble.Options{Cache: cache, DisableWAL: true, MemTableSize: 64 << 20, ReadOnly: readOnly, Logger: quiet{},
		FormatMajorVersion: pebble.FormatNewest}
	for i := range o.Levels {
		o.Levels[i].FilterPolicy = bloom.FilterPolicy(10)
	}
	db, err := pebble.Open(path, o)
	p.db = db
	return err
}

func (p *pebbleStore) build(s *setup) error {
	if err := p.at(s.path("pebble"), false); err != nil {
		return err
	}
	batch := p.db.NewBatch()
	err := s.grouped(func(position uint64, value []byte) error {
		if err := batch.Set(key(position), value, nil); err != nil || batch.Len() < 4<<20 {
			return err
		}
		err := batch.Commit(pebble.NoSync)
		batch = p.db.NewBatch()
		return err
	})
	return errors.Join(err, batch.Commit(pebble.NoSync), p.db.Flush(), p.db.Close())
}

func (p *pebbleStore) open(path string) error { return p.at(path, true) }

func (p *pebbleStore) get(position uint64) (bool, error) {
	_, closer, err := p.db.Get(key(position))
	if errors.Is(err, pebble.ErrNotFound) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	return true, closer.Close()
}

func (p *pebbleStore) close() error { return p.db.Close() }
