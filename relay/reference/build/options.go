package build

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"clocktell/relay/reference"
)

// Bounds of the depth of an index, in plies.
const (
	DepthDefault = 60
	DepthMost    = 400
)

// Options say what to build.
type Options struct {
	Out         string           // the file; until it is whole it does not exist, or is the one from before
	Inputs      []string         // PGN files, plain or packed with zstd, gzip or bzip2, read in this order
	Depth       int              // plies of each game that are kept, from 1 to DepthMost
	Keep        reference.Filter // which games are taken; one that does not say what is asked for is left out
	KeepDoubles bool             // count a game as often as it comes
	Restart     bool             // throw away what an interrupted build has left
	Workers     int              // goroutines that read games; 0: one for each processor
	Progress    func(Status)     // told now and then, from one goroutine at a time; may be nil
	Resumed     func(r Report)   // told once when an interrupted build goes on; may be nil

	sizes sizes
	pass  func(at string) error // tests stop here; nil passes
}

// sizes bound what a build holds in memory; tests make them small.
type sizes struct {
	block   int // bytes of text that one worker reads at a time
	game    int // bytes of the longest game
	run     int // records sorted in memory and spilled together
	fanIn   int // runs merged at once
	doubles int // games at first room in the set of doubles
}

// defaultSizes keep a build of five million games below a GiB: two runs of 32 MB, one
// filled while the other is written, 16 bytes for every game, a few MB for each worker.
var defaultSizes = sizes{block: 1 << 20, game: 16 << 20, run: 2 << 20, fanIn: 512, doubles: 1 << 16}

// ready checks the options and fills in what was left open.
func (o Options) ready() (Options, error) {
	switch {
	case o.Out == "":
		return o, errors.New("no file to write was named")
	case len(o.Inputs) == 0:
		return o, errors.New("no PGN file was named")
	case o.Depth < 1 || o.Depth > DepthMost:
		return o, fmt.Errorf("depth %d is out of range, 1 to %d plies", o.Depth, DepthMost)
	case o.Keep.ToYear != 0 && o.Keep.FromYear > o.Keep.ToYear:
		return o, fmt.Errorf("no year is from %d and to %d", o.Keep.FromYear, o.Keep.ToYear)
	}
	if err := errors.Join(o.Keep.Check(), o.distinct()); err != nil {
		return o, err
	}
	if o.Workers < 1 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	if o.sizes == (sizes{}) {
		o.sizes = defaultSizes
	}
	if o.Progress == nil {
		o.Progress = func(Status) {}
	}
	if o.Resumed == nil {
		o.Resumed = func(Report) {}
	}
	if o.pass == nil {
		o.pass = func(string) error { return nil }
	}
	return o, nil
}

// gameEndings are the ends of names of files with games; the file that is written must
// have none of them, since it may replace what is there.
var gameEndings = []string{".pgn", ".zst", ".gz", ".bz2"}

// distinct refuses to write over a file with games, and to read one twice.
func (o Options) distinct() error {
	for _, end := range gameEndings {
		if strings.HasSuffix(strings.ToLower(o.Out), end) {
			return fmt.Errorf("%s looks like a file with games: give the reference another name, such as games.ref", o.Out)
		}
	}
	seen := []string{o.Out}
	for _, in := range o.Inputs {
		if slices.ContainsFunc(seen, func(other string) bool { return sameFile(in, other) }) {
			return fmt.Errorf("%s is named twice", in)
		}
		seen = append(seen, in)
	}
	return o.replaceable()
}

// sameFile reports whether two paths lead to one file.
func sameFile(a, b string) bool {
	if filepath.Clean(a) == filepath.Clean(b) {
		return true
	}
	first, err := os.Stat(a)
	if err != nil {
		return false // told when it is read
	}
	second, err := os.Stat(b)
	return err == nil && os.SameFile(first, second)
}

// replaceable refuses to write over what no build has written.
func (o Options) replaceable() error {
	info, err := os.Stat(o.Out)
	switch {
	case errors.Is(err, fs.ErrNotExist) && !strings.HasSuffix(o.Out, string(filepath.Separator)):
		return nil
	case err == nil && info.Mode().IsRegular() && info.Size() == 0:
		return nil
	case err == nil && !info.Mode().IsRegular(), errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s is a folder, or no file: name the file to write, such as games.ref", o.Out)
	case err != nil:
		return err
	}
	index, err := reference.Open(o.Out)
	if errors.Is(err, reference.ErrNotIndex) {
		return fmt.Errorf("%s is there and is no reference: give another name, or remove it first", o.Out)
	}
	if err != nil {
		return nil // a damaged or older reference may be replaced; what the system refuses is told later
	}
	return index.Close()
}
