package main

import (
	"fmt"
	"maps"
	"sync"

	"clocktell/relay/config"
	"clocktell/relay/feed"
)

// sourceSet is the sources of a show by the names of their feeds. A process that leads again
// hears them from the start: what a source heard before may never have reached the show.
type sourceSet struct {
	make map[string]func() (feed.Source, error)

	mu    sync.Mutex // protects following
	now   map[string]feed.Source
	heard bool // they have been used
}

func newSourceSet() *sourceSet {
	return &sourceSet{make: make(map[string]func() (feed.Source, error)), now: make(map[string]feed.Source)}
}

// add makes a source and keeps how. Pushes and standard input come to one that stays.
func (s *sourceSet) add(f config.Feed, source func() (feed.Source, error)) (feed.Source, error) {
	made, err := source()
	if err != nil {
		return nil, err
	}
	if f.Kind() == config.KindPush || f.Kind() == config.KindStdin {
		source = func() (feed.Source, error) { return made, nil }
	}
	s.make[f.Name] = source
	s.mu.Lock()
	defer s.mu.Unlock()
	s.now[f.Name] = made
	return made, nil
}

// fresh returns sources that have heard nothing.
func (s *sourceSet) fresh() (map[string]feed.Source, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.heard {
		for name, source := range s.make {
			made, err := source()
			if err != nil {
				return nil, fmt.Errorf("feed %s: %w", name, err)
			}
			s.now[name] = made
		}
	}
	s.heard = true
	return maps.Clone(s.now), nil
}

// of returns the source of a feed as it is now.
func (s *sourceSet) of(name string) feed.Source {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.now[name]
}
