package journal

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"clocktell/relay"
)

// killedShow returns the files that a killed process left, and the events.
func killedShow(t *testing.T) (files, []relay.Event) {
	t.Helper()
	dir := t.TempDir()
	killed(t, dir, 400)
	f := filesOf(t, dir)
	j := mustOpen(t, options(f.in(t)))
	defer mustClose(t, j)
	return f, read(t, j.Records())
}

// TestDamagedWAL harms the -wal that a killed process left: SQLite leaves out
// what comes after the harm.
func TestDamagedWAL(t *testing.T) {
	f, was := killedShow(t)
	name, wal := f.one(t, "-wal")
	r := rand.New(rand.NewPCG(9, 9))
	some := 0
	try := func(what string, f files) {
		survived, cut := f.trial(t, what, was)
		if some += survived; cut != "" {
			t.Logf("%s: %d survived, cut says %q", what, survived, cut)
		}
	}
	for n := 0; n < len(wal); n += max(pageBytes+walFrameBytes, len(wal)/20) {
		try("cut at a frame", f.with(name, wal[:min(32+n, len(wal))]))
		try("cut anywhere", f.with(name, wal[:r.IntN(len(wal))]))
	}
	for seed := range *seeds / 4 {
		try("flipped", f.with(name, flipped(wal, seed)))
	}
	if some == 0 {
		t.Error("nothing survived")
	}
	try("missing", f.with(name, nil))
	shm, _ := f.one(t, "-shm")
	if survived, cut := f.with(shm, nil).trial(t, "no -shm", was); survived != len(was) || cut != "" {
		t.Errorf("without -shm: %d of %d survived, cut says %q", survived, len(was), cut)
	}
	if survived, cut := f.with(shm, flipped(f[shm], 1)).trial(t, "flipped -shm", was); survived != len(was) || cut != "" {
		t.Errorf("flipped -shm: %d of %d survived, cut says %q", survived, len(was), cut)
	}
}

// TestKilledWhileMending stops between any two steps of putting a damaged file
// aside, and starts again.
func TestKilledWhileMending(t *testing.T) {
	f, was := closedShow(t)
	name, whole := f.one(t, nameSuffix)
	cut := whole[:len(whole)/2]
	dir := f.with(name, cut).in(t)
	survived := len(read(t, mustOpen(t, options(dir)).Records()))
	half := []byte("half a file")
	left, _ := killedShow(t)
	_, stale := left.one(t, "-wal") // SQLite would put it into any file
	mended := filesOf(t, f.with(name, whole).in(t))[name]
	for what, at := range map[string]struct {
		files
		survive int
	}{
		"while copying":            {f.with(name, cut).with(name+newSuffix, half), survived},
		"before setting aside":     {f.with(name, cut).with(name+newSuffix, mended), survived},
		"before the -wal followed": {f.with(name, nil).with(name+damagedSuffix, cut).with(name+newSuffix, mended).with(name+"-wal", stale), len(was)},
		"before the new name":      {f.with(name, nil).with(name+damagedSuffix, cut).with(name+newSuffix, mended), len(was)},
		"while beginning":          {files{name + newSuffix: half, name + newSuffix + "-wal": stale}, 0},
	} {
		dir := at.in(t)
		j := mustOpen(t, options(dir))
		wantEvents(t, read(t, j.Records()), was[:at.survive])
		mustClose(t, j)
		if left, _ := filepath.Glob(dir + "/*" + newSuffix + "*"); len(left) > 0 {
			t.Errorf("%s: %v are left", what, left)
		}
	}
}

// TestDamagedTwice damages the same show again: both damaged files are kept.
func TestDamagedTwice(t *testing.T) {
	f, _ := closedShow(t)
	name, whole := f.one(t, nameSuffix)
	dir := f.with(name, whole[:len(whole)/2]).in(t)
	mustClose(t, mustOpen(t, options(dir)))
	if err := os.Truncate(filepath.Join(dir, name), 3*pageBytes); err != nil {
		t.Fatal(err)
	}
	mustClose(t, mustOpen(t, options(dir)))
	if aside, _ := filepath.Glob(dir + "/*" + damagedSuffix + "*"); len(aside) != 2 {
		t.Errorf("kept %v", aside)
	}
}
