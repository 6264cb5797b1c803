package reference

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// smallWorld has all that a file can hold, cells included, in few bytes.
func smallWorld() *world {
	w := &world{}
	for id := range cellsFrom + 60 {
		g := Game{White: names5[id%5], Event: "Open", WhiteRating: 2000 + 300*(id%2), BlackRating: 2400, Year: 2020 + id%3, Result: Result(id % 4)}
		w.games = append(w.games, g)
		move := uint16(1)
		if id < 50 {
			move = 2
		}
		w.occurrences = append(w.occurrences, Occurrence{1 << 40, move, GameID(id)})
		if id < 3 {
			w.occurrences = append(w.occurrences, Occurrence{2 << 40, 3 | BlackMoves, GameID(id)})
		}
		if id < 100 {
			w.occurrences = append(w.occurrences, Occurrence{uint64(id+3) << 40, 4, GameID(id)})
		}
	}
	w.sort()
	return w
}

// fileOf returns the bytes of the index of a world.
func fileOf(t testing.TB, w *world) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "index")
	w.write(t, path)
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func openBytes(b []byte) (*Index, error) { return open(bytes.NewReader(b), int64(len(b))) }

var damageFilters = []Filter{{}, {MinRating: 2300}, {FromYear: 2021, ToYear: 2021}}

// TestFlippedBytes damages one byte after the other. Outside the data, Open
// refuses. In the data, Verify refuses, and a lookup refuses or is right.
func TestFlippedBytes(t *testing.T) {
	w := smallWorld()
	b := fileOf(t, w)
	x, err := openBytes(b)
	if err != nil {
		t.Fatal(err)
	}
	s := x.head.sections[data]
	groups := w.byPosition()
	want := make(map[uint64][]Answer)
	for position, here := range groups {
		for _, f := range damageFilters {
			want[position] = append(want[position], w.answer(here, f))
		}
	}
	step := max(1, len(b)/3000)
	refused := 0
	for i := 0; i < len(b); i += 1 + i%step {
		bit := byte(1) << (i % 8)
		b[i] ^= bit
		x, err := openBytes(b)
		switch {
		case int64(i) < s.at || int64(i) >= s.at+s.size:
			if err == nil || !isRefusal(err) {
				t.Fatalf("byte %d flipped: %v", i, err)
			}
		case err != nil:
			t.Fatalf("byte %d of the data flipped: %v", i, err)
		default:
			if err := x.Verify(); !errors.Is(err, ErrDamaged) {
				t.Fatalf("byte %d flipped: verify: %v", i, err)
			}
			refused += lookAll(t, x, want)
		}
		b[i] ^= bit
	}
	if refused == 0 {
		t.Error("no lookup was refused")
	}
}

// lookAll looks at all positions and returns how many were refused.
func lookAll(t *testing.T, x *Index, want map[uint64][]Answer) (refused int) {
	t.Helper()
	var out Answer
	for position, answers := range want {
		for i, f := range damageFilters {
			switch err := x.Lookup(position, f, &out); {
			case errors.Is(err, ErrDamaged):
				refused++
				if out.Unfiltered != 0 || len(out.Moves) != 0 {
					t.Fatalf("an answer beside an error: %+v", out)
				}
			case err != nil:
				t.Fatal(err)
			case !out.equal(&answers[i]):
				t.Fatalf("position %x: wrong answer from a damaged file", position)
			}
		}
	}
	return refused
}

func isRefusal(err error) bool {
	for _, target := range []error{ErrNotIndex, ErrUnfinished, ErrVersion, ErrDamaged} {
		if errors.Is(err, target) {
			return strings.Contains(err.Error(), "; ") // says what to do
		}
	}
	return false
}

// TestCut refuses a file that is shorter or longer than it was.
func TestCut(t *testing.T) {
	b := fileOf(t, smallWorld())
	for n := 0; n < len(b); n += 1 + n/200 {
		if _, err := openBytes(b[:n]); err == nil || !isRefusal(err) {
			t.Fatalf("%d bytes of %d: %v", n, len(b), err)
		}
	}
	for _, more := range []int{1, 7, 4096} {
		if _, err := openBytes(append(bytes.Clone(b), make([]byte, more)...)); !errors.Is(err, ErrDamaged) {
			t.Fatalf("%d bytes more: %v", more, err)
		}
	}
}

// TestNotAnIndex: what is refused, and as what.
func TestNotAnIndex(t *testing.T) {
	whole := fileOf(t, smallWorld())
	changed := func(at int, to ...byte) []byte {
		b := bytes.Clone(whole)
		copy(b[at:], to)
		binary.LittleEndian.PutUint32(b[headSumAt:], crc32.Checksum(b[:headSumAt], castagnoli))
		return b
	}
	dir := t.TempDir()
	for name, tt := range map[string]struct {
		b    []byte
		want error
		says string
	}{
		"empty":          {nil, ErrNotIndex, "name a file"},
		"text":           {[]byte("[Event \"Open\"]\n"), ErrNotIndex, "name a file"},
		"copied as text": {bytes.ReplaceAll(whole, []byte("\r\n"), []byte("\n")), ErrNotIndex, "name a file"},
		"zeros":          {make([]byte, 5000), ErrUnfinished, "build it again"},
		"newer":          {changed(8, 2), ErrVersion, "this program reads format 1"},
		"a gap":          {changed(sectionsAt+24, 1), ErrDamaged, "copy it again"},
		"more games":     {changed(24, 9), ErrDamaged, "copy it again"},
	} {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, tt.b, 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := Open(path); !errors.Is(err, tt.want) || !strings.Contains(err.Error(), tt.says) || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Open(dir); err == nil {
		t.Error("opened a folder")
	}
	if _, err := Open(filepath.Join(dir, "none")); !errors.Is(err, os.ErrNotExist) {
		t.Error(err)
	}
}

// TestSwappedBlocks: a block in another's place has a right checksum of its own,
// and is refused all the same.
func TestSwappedBlocks(t *testing.T) {
	w := &world{games: make([]Game, 1)}
	r := rand.New(rand.NewPCG(4, 4))
	for range 3 * blockMost {
		w.occurrences = append(w.occurrences, Occurrence{r.Uint64() >> 8, 1, 0})
	}
	w.sort()
	b := fileOf(t, w)
	x, err := openBytes(b)
	if err != nil {
		t.Fatal(err)
	}
	at, size := x.fence.place(0)
	next, same := x.fence.place(1)
	if size != same {
		t.Fatalf("blocks of %d and %d bytes", size, same)
	}
	first := bytes.Clone(b[at : at+int64(size)])
	copy(b[at:], b[next:next+int64(size)])
	copy(b[next:], first)
	var out Answer
	for _, o := range w.occurrences[:2*blockMost] {
		if err := x.Lookup(o.Position, Filter{}, &out); !errors.Is(err, ErrDamaged) {
			t.Fatalf("%+v, %v", out, err)
		}
	}
}
