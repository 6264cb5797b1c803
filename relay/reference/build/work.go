package build

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"clocktell/relay/reference"
)

// ErrOther says that the work directory belongs to another build than was asked for.
var ErrOther = errors.New("an interrupted build was of other files or with other options: give those again, or --restart to begin anew")

// manifest is what stands in the work directory about a build.
type manifest struct {
	Version int
	Depth   int
	Keep    reference.Filter
	Doubles bool // are kept
	Inputs  []Input

	Runs   []run
	At     place  // the games of Runs end here
	Read   bool   // all inputs are
	Report Report // of the games up to At
}

// manifestVersion changes with what the work directory holds or what is done with it.
const manifestVersion = 1

// manifestName is the manifest's file.
const manifestName = "build.json"

// run is a sorted part of the records, and the games they belong to.
type run struct {
	Records spilled
	Games   spilled
	First   int // game of the reference
	Count   int // of games
}

// place is where the reading of the inputs stands: at the beginning of a game.
type place struct {
	Input  int
	Offset int64 // in the text of the input, unpacked
	Line   int   // before it, in that text
	Game   int   // before it, in that text
}

// work is the work directory of a build.
type work struct {
	dir      string
	lock     *os.File
	manifest manifest
}

// openWork opens the work directory of a build, or makes it. It is locked until closed.
func openWork(o *Options, inputs []Input) (*work, error) {
	w := &work{dir: o.Out + ".work"}
	if err := os.MkdirAll(w.dir, 0o755); err != nil {
		return nil, err
	}
	var err error
	if w.lock, err = lockFile(filepath.Join(w.dir, "lock")); err != nil {
		return nil, fmt.Errorf("%s: %w", w.dir, err)
	}
	fresh := manifest{Version: manifestVersion, Depth: o.Depth, Keep: o.Keep, Doubles: o.KeepDoubles, Inputs: inputs}
	if err := w.load(fresh, o.Restart); err != nil {
		return nil, errors.Join(err, w.lock.Close())
	}
	return w, nil
}

// load reads the manifest that an interrupted build has left, or takes a fresh one.
func (w *work) load(fresh manifest, restart bool) error {
	w.manifest = fresh
	text, err := os.ReadFile(w.path(manifestName))
	switch {
	case errors.Is(err, fs.ErrNotExist) || err == nil && restart:
		if err := w.save(); err != nil {
			return err
		}
		return w.tidy()
	case err != nil:
		return err
	}
	var left manifest
	if err := json.Unmarshal(text, &left); err != nil {
		return fmt.Errorf("%s: %w", w.path(manifestName), errDamaged)
	}
	if !left.sameBuild(&fresh) {
		if len(left.Runs) == 0 && !left.Read { // nothing that anybody would miss
			return errors.Join(w.save(), w.tidy())
		}
		return fmt.Errorf("%s: %w", w.dir, ErrOther)
	}
	w.manifest = left
	return w.tidy()
}

func (m *manifest) sameBuild(o *manifest) bool {
	return m.Version == o.Version && m.Depth == o.Depth && m.Keep == o.Keep && m.Doubles == o.Doubles && slices.Equal(m.Inputs, o.Inputs)
}

// tidy removes the files that no manifest names: runs that were not complete.
func (w *work) tidy() error {
	named := map[string]bool{manifestName: true, "lock": true}
	for _, r := range w.manifest.Runs {
		named[r.Records.Name], named[r.Games.Name] = true, true
	}
	entries, err := os.ReadDir(w.dir)
	for _, entry := range entries {
		if !named[entry.Name()] {
			err = errors.Join(err, os.Remove(w.path(entry.Name())))
		}
	}
	return err
}

func (w *work) path(name string) string { return filepath.Join(w.dir, name) }

// save replaces the manifest, after all that it names.
func (w *work) save() error {
	if err := syncDir(w.dir); err != nil {
		return err
	}
	text, err := json.MarshalIndent(&w.manifest, "", "\t")
	if err != nil {
		return err
	}
	path := w.path(manifestName)
	if err := writeSynced(path+".new", text); err != nil {
		return err
	}
	if err := os.Rename(path+".new", path); err != nil {
		return err
	}
	return syncDir(w.dir)
}

func writeSynced(path string, text []byte) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	if _, err := f.Write(text); err != nil {
		return errors.Join(err, f.Close())
	}
	if err := f.Sync(); err != nil {
		return errors.Join(err, f.Close())
	}
	return f.Close()
}

func syncDir(path string) error {
	d, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}

// close gives the directory up and leaves it for the next build.
func (w *work) close() error { return w.lock.Close() }

// remove takes the directory away once the file is whole.
//
// The manifest goes first: a build killed on the way must not find one that names files
// which are gone.
func (w *work) remove(o *Options) error {
	err := cmp.Or(os.Remove(w.path(manifestName)), syncDir(w.dir), o.pass("manifest gone"))
	if err == nil {
		err = os.RemoveAll(w.dir)
	}
	return errors.Join(err, w.lock.Close())
}
