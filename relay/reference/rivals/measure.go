package main

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"golang.org/x/sys/unix"
)

// figure is what is measured of a store. Times of looks are p50 and p99.
type figure struct {
	Build               time.Duration
	Size                int64 // bytes on the disk
	Hit, Miss, Cold     [2]time.Duration
	BuildPeak, LookPeak int64 // MiB
}

const (
	coldRounds = 25
	coldLooks  = 20
)

// work is a worker's part: it prints what it measured.
func (s *setup) work() error {
	found := make(map[string]any)
	switch s.phase {
	case "payload":
		t, err := s.writePayload()
		if err != nil {
			return err
		}
		found["Occurrences"], found["Positions"] = t.Occurrences, t.Positions
	case "build":
		began := time.Now()
		if err := newStore(s.store).build(s); err != nil {
			return err
		}
		found["Build"] = time.Since(began)
		size, err := eachFile(s.path(s.store), func(*os.File) error { return nil })
		if err != nil {
			return err
		}
		found["Size"] = size
	case "look":
		var f figure
		if err := s.look(newStore(s.store), &f); err != nil {
			return err
		}
		found["Hit"], found["Miss"], found["Cold"] = f.Hit, f.Miss, f.Cold
	}
	return json.NewEncoder(os.Stdout).Encode(found)
}

func (s *setup) look(st store, f *figure) error {
	positions, err := s.looks()
	if err != nil {
		return err
	}
	if err := s.cold(st, f, positions); err != nil {
		return err
	}
	if err := st.open(s.path(s.store)); err != nil {
		return err
	}
	defer st.close()
	if _, err = timed(st, positions, 0, true); err != nil { // warms
		return err
	}
	if f.Hit, err = timed(st, positions, 0, true); err != nil {
		return err
	}
	f.Miss, err = timed(st, positions, 1, false)
	return err
}

// cold times looks at a store that the system has forgotten.
func (s *setup) cold(st store, f *figure, positions []uint64) error {
	var times []time.Duration
	for round := range coldRounds {
		if _, err := eachFile(s.path(s.store), forget); err != nil {
			return err
		}
		if err := st.open(s.path(s.store)); err != nil {
			return err
		}
		for i := range coldLooks {
			began := time.Now()
			if found, err := st.get(positions[round*coldLooks+i]); err != nil || !found {
				return fmt.Errorf("cold: found %v, %w", found, err)
			}
			times = append(times, time.Since(began))
		}
		if err := st.close(); err != nil {
			return err
		}
	}
	f.Cold = p50p99(times)
	return nil
}

// forget has the system drop a file from its cache.
func forget(file *os.File) error {
	if err := file.Sync(); err != nil {
		return err
	}
	return unix.Fadvise(int(file.Fd()), 0, 0, unix.FADV_DONTNEED)
}

func timed(st store, positions []uint64, add uint64, want bool) ([2]time.Duration, error) {
	times := make([]time.Duration, len(positions))
	for i, position := range positions {
		began := time.Now()
		found, err := st.get(position + add)
		times[i] = time.Since(began)
		if err != nil || found != want {
			return [2]time.Duration{}, fmt.Errorf("position %x: found %v, %v", position+add, found, err)
		}
	}
	return p50p99(times), nil
}

func p50p99(times []time.Duration) [2]time.Duration {
	slices.Sort(times)
	return [2]time.Duration{times[len(times)/2], times[len(times)*99/100]}
}

// eachFile calls visit for each file of a store and returns their size.
func eachFile(path string, visit func(*os.File) error) (size int64, err error) {
	err = filepath.WalkDir(path, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		file, err := os.Open(path)
		if err != nil {
			return err
		}
		defer file.Close()
		info, err := file.Stat()
		if err != nil {
			return err
		}
		size += info.Size()
		return visit(file)
	})
	return size, err
}
