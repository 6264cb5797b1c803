package journal

import (
	"flag"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"clocktell/relay"
)

// seeds is how many files are harmed at random. A longer run, now and then, finds
// more: go test ./relay/journal -run Flipped -seeds 10000
var seeds = flag.Uint64("seeds", 100, "how many files to harm at random")

// files are the files of a folder, by name.
type files map[string][]byte

func filesOf(t *testing.T, dir string) files {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	f := make(files)
	for _, entry := range entries {
		if f[entry.Name()], err = os.ReadFile(filepath.Join(dir, entry.Name())); err != nil {
			t.Fatal(err)
		}
	}
	return f
}

// one returns the name and contents of the file with that ending.
func (f files) one(t *testing.T, suffix string) (string, []byte) {
	t.Helper()
	for name, bytes := range f {
		if strings.HasPrefix(name, namePrefix) && strings.HasSuffix(name, suffix) {
			return name, bytes
		}
	}
	t.Fatalf("no file %s in %v", suffix, slices.Collect(maps.Keys(f)))
	return "", nil
}

// with returns the files with one changed; nil takes it away.
func (f files) with(name string, bytes []byte) files {
	next := maps.Clone(f)
	next[name] = bytes
	if bytes == nil {
		delete(next, name)
	}
	return next
}

func (f files) in(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, bytes := range f {
		if err := os.WriteFile(filepath.Join(dir, name), bytes, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// trial opens a journal over damaged files. It must open, give a beginning of
// what was there, say what was cut, go on, and find nothing amiss the next time.
// It returns how many events survived and what was said.
func (f files) trial(t *testing.T, what string, was []relay.Event) (survived int, cut string) {
	t.Helper()
	dir := f.in(t)
	j := mustOpen(t, options(dir))
	cut = j.Cut()
	got := read(t, j.Records())
	if len(got) > len(was) {
		t.Fatalf("%s: %d events, more than there were", what, len(got))
	}
	wantEvents(t, got, was[:len(got)])
	if aside, _ := filepath.Glob(dir + "/*" + damagedSuffix); len(aside) == 0 != (cut == "") {
		t.Errorf("%s: set aside %v, but says %q", what, aside, cut)
	}
	through(t, j, failure(-1))
	mustClose(t, j)
	j = mustOpen(t, options(dir))
	wantEvents(t, read(t, j.Records()), append(got[:len(got):len(got)], failure(-1)))
	if j.Cut() != "" {
		t.Errorf("%s: the next time: %s", what, j.Cut())
	}
	mustClose(t, j)
	os.RemoveAll(dir)
	return len(got), cut
}

// closedShow returns the files of a show that ended well, and its events. Some
// packets are larger than a page of the file.
func closedShow(t *testing.T) (files, []relay.Event) {
	t.Helper()
	dir := t.TempDir()
	o := options(dir)
	o.SegmentBytes = 40 << 10
	j := mustOpen(t, o)
	r := random{rand.New(rand.NewPCG(7, 7))}
	var was []relay.Event
	for n := range 150 {
		e := packet(n)
		if n%50 == 40 {
			e.Parts[1].Text = r.bytes(20_000)
		}
		if err := j.WriteLog([]LogEntry{{Seq: int64(n), At: e.At, Kind: "move", Text: "a line of the log"}}); err != nil {
			t.Fatal(err)
		}
		was = append(was, e, answer(n), failure(n))
		through(t, j, was[len(was)-3:]...)
	}
	mustClose(t, j)
	return filesOf(t, dir), was
}
