package journal

import (
	"context"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// TestTruncated cuts a file at every page and at random places.
func TestTruncated(t *testing.T) {
	f, was := closedShow(t)
	name, whole := f.one(t, nameSuffix)
	r := rand.New(rand.NewPCG(1, 1))
	var lengths []int
	for n := 0; n < len(whole); n += pageBytes {
		lengths = append(lengths, n, n+1+r.IntN(pageBytes-1))
	}
	some := 0
	for _, n := range lengths {
		if n == len(whole) {
			continue
		}
		survived, cut := f.with(name, whole[:n:n]).trial(t, "cut", was)
		if cut == "" {
			t.Errorf("cut to %d of %d bytes, and nothing is said", n, len(whole))
		}
		if survived > 0 {
			some++
		}
	}
	if some < len(lengths)/2 {
		t.Errorf("only %d of %d cuts left something", some, len(lengths))
	}
	t.Logf("%d cuts, %d left something", len(lengths), some)
}

// TestFlipped flips bits at random places of a file.
func TestFlipped(t *testing.T) {
	f, was := closedShow(t)
	name, whole := f.one(t, nameSuffix)
	noticed, nothing := uint64(0), uint64(0)
	for seed := range *seeds {
		survived, cut := f.with(name, flipped(whole, seed)).trial(t, "flipped", was)
		if cut != "" {
			noticed++
		} else if survived != len(was) {
			t.Errorf("seed %d: %d of %d events, and nothing is said", seed, survived, len(was))
		}
		if survived == 0 {
			nothing++
		}
	}
	if noticed < *seeds/4 || nothing > *seeds/10 {
		t.Errorf("of %d: %d noticed, %d left nothing", *seeds, noticed, nothing)
	}
	t.Logf("of %d: %d noticed, %d left nothing", *seeds, noticed, nothing)
}

// flipped returns a copy with one to four bits flipped.
func flipped(whole []byte, seed uint64) []byte {
	r := rand.New(rand.NewPCG(seed, 3))
	bytes := slices.Clone(whole)
	for range 1 + r.IntN(4) {
		bytes[r.IntN(len(bytes))] ^= 1 << r.IntN(8)
	}
	return bytes
}

// TestFlippedBody flips a bit inside a body, where SQLite sees nothing wrong.
func TestFlippedBody(t *testing.T) {
	f, was := closedShow(t)
	name, whole := f.one(t, nameSuffix)
	at := strings.Index(string(whole), "no answer, 75")
	bytes := slices.Clone(whole)
	bytes[at+3] ^= 1
	survived, cut := f.with(name, bytes).trial(t, "one bit", was)
	if survived != 3*75+2 || !strings.Contains(cut, "checksum") {
		t.Errorf("%d events survived, cut says %q", survived, cut)
	}
}

// TestOtherThings puts other things in the place of a show.
func TestOtherThings(t *testing.T) {
	f, was := closedShow(t)
	name, whole := f.one(t, nameSuffix)
	r := rand.New(rand.NewPCG(5, 5))
	garbage := make([]byte, 20_000)
	for i := range garbage {
		garbage[i] = byte(r.Uint32())
	}
	for what, bytes := range map[string][]byte{
		"nothing": {}, "a text": []byte(strings.Repeat("Nothing to see here.\n", 500)), "garbage": garbage,
		"a database header and no more": whole[:100], "another page 1": append(slices.Clone(garbage[:pageBytes]), whole[pageBytes:]...),
	} {
		if survived, cut := f.with(name, bytes).trial(t, what, was); survived > 0 || cut == "" {
			t.Errorf("%s: %d survived, cut says %q", what, survived, cut)
		}
	}
	left := make([]byte, 32<<10)
	for suffix, bytes := range map[string][]byte{"-shm": left, "-wal": {}, "-journal": {}} {
		if survived, cut := f.with(name+suffix, bytes).trial(t, suffix, was); survived != len(was) || cut != "" {
			t.Errorf("%s left behind: %d survived, cut says %q", suffix, survived, cut)
		}
	}
	for _, suffix := range []string{"-shm", "-wal"} {
		if survived, cut := f.with(name+suffix, garbage).trial(t, "garbage "+suffix, was); survived != len(was) || cut != "" {
			t.Errorf("garbage %s: %d survived, cut says %q", suffix, survived, cut)
		}
	}
}

// TestDamagedIndex spoils a page that no record needs, but the next write may.
func TestDamagedIndex(t *testing.T) {
	f, was := closedShow(t)
	dir := f.in(t)
	r, err := Read(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	var page int
	if err := r.db.QueryRow("SELECT rootpage FROM sqlite_schema WHERE name = 'log_board'").Scan(&page); err != nil {
		t.Fatal(err)
	}
	r.Close()
	name, whole := f.one(t, nameSuffix)
	bytes := slices.Clone(whole)
	copy(bytes[(page-1)*pageBytes:], "not what an index begins with")
	if survived, cut := f.with(name, bytes).trial(t, "index", was); survived != len(was) || cut == "" {
		t.Errorf("%d survived, cut says %q", survived, cut)
	}
}

// TestBodyWithoutSense writes a record that fits its checksum but is none.
func TestBodyWithoutSense(t *testing.T) {
	dir := t.TempDir()
	j := mustOpen(t, options(dir))
	through(t, j, failures(0, 10)...)
	j.commit([]row{{kind: kindHand, at: stamp(start), n: 1, body: []byte("{")}})
	through(t, j, failures(10, 20)...)
	mustClose(t, j)
	j = mustOpen(t, options(dir))
	wantEvents(t, read(t, j.Records()), failures(0, 10))
	if !strings.Contains(j.Cut(), "record 12: its body does not make sense") {
		t.Errorf("cut says %q", j.Cut())
	}
}

// TestMissingRecord takes a record out of the middle, where SQLite sees nothing
// wrong.
func TestMissingRecord(t *testing.T) {
	dir := t.TempDir()
	j := mustOpen(t, options(dir))
	through(t, j, failures(0, 100)...)
	mustClose(t, j)
	execute(t, j.Path(), "DELETE FROM record WHERE seq = 52")
	j = mustOpen(t, options(dir))
	wantEvents(t, read(t, j.Records()), failures(0, 50))
	if !strings.Contains(j.Cut(), "records 52 to 52 are missing") {
		t.Errorf("cut says %q", j.Cut())
	}
}

// TestOddTables changes the tables: another column's name is damage, an index
// somebody has added is not.
func TestOddTables(t *testing.T) {
	for statement, cut := range map[string]bool{"ALTER TABLE log RENAME COLUMN text TO tex4": true, "CREATE INDEX mine ON log(text)": false} {
		dir := t.TempDir()
		j := mustOpen(t, options(dir))
		through(t, j, failures(0, 10)...)
		mustClose(t, j)
		execute(t, j.Path(), statement)
		j = mustOpen(t, options(dir))
		wantEvents(t, read(t, j.Records()), failures(0, 10))
		if (j.Cut() != "") != cut {
			t.Errorf("%s: cut says %q", statement, j.Cut())
		}
		mustClose(t, j)
	}
}
