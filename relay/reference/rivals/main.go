package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"

	"clocktell/relay/reference/referencetest"
)

// setup is what a run is about. Workers get it as flags.
type setup struct {
	referencetest.Collection
	repeat       int
	dir          string
	only         string // stores, separated by commas
	store, phase string // of a worker
}

func main() {
	log.SetFlags(0)
	var s setup
	flag.IntVar(&s.Games, "games", 500_000, "games")
	flag.IntVar(&s.Plies, "plies", 40, "plies of each")
	flag.IntVar(&s.repeat, "repeat", 3, "how often each store is built and looked at")
	flag.StringVar(&s.dir, "dir", "", "folder for the stores; default: a new one, deleted at the end")
	flag.StringVar(&s.only, "only", strings.Join(order, ","), "stores to measure; the first is the one that the others are compared with")
	flag.StringVar(&s.store, "store", "", "used by the program itself")
	flag.StringVar(&s.phase, "phase", "", "used by the program itself")
	flag.Parse()
	if s.phase != "" {
		if err := s.work(); err != nil {
			log.Fatal(s.store, " ", s.phase, ": ", err)
		}
		return
	}
	if err := s.lead(); err != nil {
		log.Fatal(err)
	}
}

// lead runs the workers in turns and prints the table.
func (s *setup) lead() error {
	if s.dir == "" {
		dir, err := os.MkdirTemp("", "rivals")
		if err != nil {
			return err
		}
		defer os.RemoveAll(dir)
		s.dir = dir
	}
	// A worker's peak memory counts that of the process that started it: this one stays small.
	var total totals
	if _, err := s.worker("", "payload", &total); err != nil {
		return err
	}
	fmt.Printf("%d games, %d occurrences, %d positions\n", s.Games, total.Occurrences, total.Positions)
	names := strings.Split(s.only, ",")
	figures := make(map[string][]figure)
	for range s.repeat {
		for _, name := range names {
			f, err := s.measure(name)
			if err != nil {
				return err
			}
			figures[name] = append(figures[name], f)
			log.Printf("%s: %+v", name, f)
		}
	}
	printTable(names, figures, s.Games)
	return nil
}

// measure builds a store and looks at it.
func (s *setup) measure(name string) (figure, error) {
	var f figure
	if err := os.RemoveAll(s.path(name)); err != nil {
		return f, err
	}
	var err error
	if f.BuildPeak, err = s.worker(name, "build", &f); err != nil {
		return f, err
	}
	if f.LookPeak, err = s.worker(name, "look", &f); err != nil {
		return f, err
	}
	return f, os.RemoveAll(s.path(name))
}

// worker runs this program again, adds what it measured and returns its peak
// memory in MiB.
func (s *setup) worker(name, phase string, found any) (int64, error) {
	self, err := os.Executable()
	if err != nil {
		return 0, err
	}
	cmd := exec.Command(self, "-store", name, "-phase", phase, "-dir", s.dir, "-games", fmt.Sprint(s.Games), "-plies", fmt.Sprint(s.Plies))
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return 0, fmt.Errorf("%s %s: %w", name, phase, err)
	}
	return cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss >> 10, json.Unmarshal(out, found)
}

func (s *setup) path(name string) string { return filepath.Join(s.dir, name) }
