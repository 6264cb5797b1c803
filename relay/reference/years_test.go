package reference

import (
	"math/rand/v2"
	"reflect"
	"testing"
)

// TestEveryYear has a move of games of every year that there can be, many of them
// and of every class and venue: the most spans that a move can have.
func TestEveryYear(t *testing.T) {
	w := &world{}
	r := rand.New(rand.NewPCG(6, 6))
	for year := range YearMost + 1 {
		for range 2 {
			g := randomGame(r)
			g.Year = year
			w.occurrences = append(w.occurrences, Occurrence{9, 1, GameID(len(w.games))})
			w.games = append(w.games, g)
		}
	}
	x := w.index(t)
	if err := x.Verify(); err != nil {
		t.Fatal(err)
	}
	var out Answer
	for range 200 {
		f := randomFilter(r)
		f.FromYear, f.ToYear = r.IntN(YearMost+1), r.IntN(YearMost+1)
		if err := x.Lookup(9, f, &out); err != nil {
			t.Fatal(err)
		}
		if got, want := public(&out), w.answer(w.occurrences, f); !reflect.DeepEqual(got, want) {
			t.Fatalf("%+v:\n got %+v\nwant %+v", f, got, want)
		}
	}
	if most := movesMost * len(out.body); most > bodyMost {
		t.Errorf("%d moves like this one take %d bytes, more than %d", movesMost, most, bodyMost)
	}
	if len(out.detail) > bodyMost {
		t.Errorf("a detail of %d bytes", len(out.detail))
	}
}

// TestSidesOfTheLimits: moves with one game less than, exactly as many as, and one
// more than there must be for another way of writing them.
func TestSidesOfTheLimits(t *testing.T) {
	for _, limit := range []int{2, summaryFrom, cellsFrom} {
		for _, n := range []int{limit - 1, limit, limit + 1} {
			r := rand.New(rand.NewPCG(uint64(n), 6))
			w := &world{}
			for id := range n {
				w.games = append(w.games, randomGame(r))
				w.occurrences = append(w.occurrences, Occurrence{9, 1 | BlackMoves, GameID(id)})
			}
			x := w.index(t)
			var out Answer
			for range 50 {
				f := randomFilter(r)
				if err := x.Lookup(9, f, &out); err != nil {
					t.Fatal(err)
				}
				if got, want := public(&out), w.answer(w.occurrences, f); !reflect.DeepEqual(got, want) {
					t.Fatalf("%d games, %+v:\n got %+v\nwant %+v", n, f, got, want)
				}
			}
		}
	}
}
