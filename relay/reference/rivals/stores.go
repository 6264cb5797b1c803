package main

import (
	"encoding/binary"

	"clocktell/relay/reference"
)

// store is what is compared.
type store interface {
	build(*setup) error
	open(path string) error
	get(position uint64) (found bool, err error)
	close() error
}

// order is that of the table.
var order = []string{"index", "pebble", "bbolt", "sqlite"}

func newStore(name string) store {
	return map[string]store{"index": &index{}, "pebble": &pebbleStore{}, "bbolt": &boltStore{}, "sqlite": &sqliteStore{}}[name]
}

func key(position uint64) []byte { return binary.BigEndian.AppendUint64(nil, position) }

// index is package reference.
type index struct {
	x   *reference.Index
	out reference.Answer
}

func (x *index) build(s *setup) error {
	w, err := reference.Create(s.path("index"), reference.Head{Depth: s.Plies})
	if err != nil {
		return err
	}
	for id := range s.Games {
		if _, err := w.AddGame(s.Game(id)); err != nil {
			return err
		}
	}
	if err := s.each(w.Add); err != nil {
		return err
	}
	return w.Commit()
}

func (x *index) open(path string) (err error) {
	x.x, err = reference.Open(path)
	return err
}

func (x *index) get(position uint64) (bool, error) {
	err := x.x.Lookup(position, reference.Filter{}, &x.out)
	return x.out.Unfiltered > 0, err
}

func (x *index) close() error { return x.x.Close() }
