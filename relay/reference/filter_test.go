package reference

import (
	"errors"
	"math/rand/v2"
	"testing"
)

// TestFilterCheck refuses what has no exact answer.
func TestFilterCheck(t *testing.T) {
	x := (&world{}).index(t)
	var out Answer
	for _, f := range []Filter{{MinRating: 2450}, {MinRating: -100}, {MinRating: RatingMost + 5}, {FromYear: -1}, {ToYear: YearMost + 1}, {Class: classBits + 1}} {
		if err := x.Lookup(1, f, &out); !errors.Is(err, ErrFilter) {
			t.Errorf("%+v: %v", f, err)
		}
	}
	for _, f := range []Filter{{}, {MinRating: 4000}, {FromYear: 2010, ToYear: 2000}} {
		if err := f.Check(); err != nil {
			t.Errorf("%+v: %v", f, err)
		}
	}
}

// TestPasses holds filters against their comments, bounds included.
func TestPasses(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	passed := 0
	for range 100_000 {
		f, g := randomFilter(r), randomGame(r)
		if r.IntN(3) == 0 {
			g.WhiteRating, g.BlackRating = f.MinRating+r.IntN(3)-1, f.MinRating+r.IntN(3)-1
		}
		if f.Passes(g) != passes(f, g) {
			t.Fatalf("%+v, %+v: %v", f, g, f.Passes(g))
		}
		if f.Passes(g) {
			passed++
		}
	}
	if passed < 5_000 || passed > 95_000 {
		t.Errorf("%d of 100,000 pass: the check sees too little", passed)
	}
}
