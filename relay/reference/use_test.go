package reference

import (
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/sync/errgroup"
)

// TestManyGoroutines looks from several goroutines while another verifies.
func TestManyGoroutines(t *testing.T) {
	w := randomWorld(rand.New(rand.NewPCG(8, 8)), 6000, 300, 4)
	x := w.index(t)
	groups := w.byPosition()
	var group errgroup.Group
	for n := range 4 {
		group.Go(func() error {
			var out Answer
			r := rand.New(rand.NewPCG(uint64(n), 1))
			for range 300 {
				o := w.occurrences[r.IntN(len(w.occurrences))]
				f := randomFilter(r)
				if err := x.Lookup(o.Position, f, &out); err != nil {
					return err
				}
				if want := w.answer(groups[o.Position], f); !out.equal(&want) {
					return errors.New("wrong answer")
				}
				if g, err := x.Game(o.Game); err != nil || g != w.games[o.Game] {
					return errors.Join(err, errors.New("wrong game"))
				}
			}
			return nil
		})
	}
	group.Go(x.Verify)
	if err := group.Wait(); err != nil {
		t.Fatal(err)
	}
}

// TestClose: looks during and after Close are right or say that it is closed.
func TestClose(t *testing.T) {
	w := randomWorld(rand.New(rand.NewPCG(8, 8)), 500, 300, 4)
	x := w.index(t)
	var group errgroup.Group
	for range 3 {
		group.Go(func() error {
			var out Answer
			for i := 0; ; i++ {
				err := x.Lookup(w.occurrences[i%len(w.occurrences)].Position, Filter{}, &out)
				if errors.Is(err, os.ErrClosed) {
					return nil
				}
				if err != nil || out.Unfiltered == 0 {
					return errors.Join(err, errors.New("wrong answer"))
				}
			}
		})
	}
	group.Go(x.Close)
	if err := group.Wait(); err != nil {
		t.Fatal(err)
	}
	if _, err := x.Game(0); !errors.Is(err, os.ErrClosed) {
		t.Error(err)
	}
	if err := x.Close(); err != nil {
		t.Error(err)
	}
}

// TestCutWhileOpen: the file is cut short by another program. A look may still
// find what it needs; else it is an error, and the process lives on.
func TestCutWhileOpen(t *testing.T) {
	w := randomWorld(rand.New(rand.NewPCG(2, 8)), 6000, 300, 4)
	path := filepath.Join(t.TempDir(), "index")
	w.write(t, path)
	x, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer x.Close()
	if err := os.Truncate(path, 4096); err != nil {
		t.Fatal(err)
	}
	groups := w.byPosition()
	var out Answer
	failed := 0
	for position, here := range groups {
		err := x.Lookup(position, Filter{}, &out)
		want := w.answer(here, Filter{})
		switch {
		case errors.Is(err, ErrDamaged):
			failed++
		case err != nil || !out.equal(&want):
			t.Fatal(err, out)
		}
	}
	if failed == 0 {
		t.Error("nothing was missed")
	}
	if err := x.Verify(); !errors.Is(err, ErrDamaged) {
		t.Error(err)
	}
}

// TestReplacedWhileOpen: a new index under the same name does not disturb who
// has the old one open.
func TestReplacedWhileOpen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "index")
	old := randomWorld(rand.New(rand.NewPCG(1, 8)), 600, 30, 4)
	old.write(t, path)
	x, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer x.Close()
	(&world{games: make([]Game, 7)}).write(t, path)
	if err := x.Verify(); err != nil || x.Games() != 600 {
		t.Error(err)
	}
	if y, err := Open(path); err != nil || y.Games() != 7 {
		t.Error(err)
	}
}

// TestNoGarbage: with an Answer that is used again, a look allocates nothing.
func TestNoGarbage(t *testing.T) {
	w := randomWorld(rand.New(rand.NewPCG(5, 5)), 12000, 30, 5)
	x := w.index(t)
	var out Answer
	for _, f := range []Filter{{}, {MinRating: 1500}, {FromYear: 2002, ToYear: 2008, OnlyOverTheBoard: true}} {
		look := func() {
			for _, o := range w.occurrences[:2000] {
				if err := x.Lookup(o.Position, f, &out); err != nil {
					t.Fatal(err)
				}
			}
		}
		look()
		if n := testing.AllocsPerRun(2, look); n != 0 {
			t.Errorf("%+v: %v allocations in 2000 looks", f, n)
		}
	}
}
