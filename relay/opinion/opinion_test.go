package opinion

import (
	"testing"

	"clocktell/relay/bitboard"
)

func said(depth int, score Score, first bitboard.Move) *Opinion {
	return &Opinion{Depth: depth, Lines: []Line{{Score: score, Depth: depth, Moves: []bitboard.Move{first}}}}
}

// TestFrom: seen from Black's side a score and its bound turn round, and twice round they
// are what they were.
func TestFrom(t *testing.T) {
	for _, row := range []struct{ white, black Score }{
		{Score{Centipawns: 30}, Score{Centipawns: -30}},
		{Score{Mate: -2}, Score{Mate: 2}},
		{Score{Centipawns: 30, Bound: AtLeast}, Score{Centipawns: -30, Bound: AtMost}},
		{Score{Centipawns: -7, Bound: AtMost}, Score{Centipawns: 7, Bound: AtLeast}},
	} {
		if row.white.From(false) != row.black || row.black.From(false) != row.white || row.white.From(true) != row.white {
			t.Errorf("%+v from Black's side is %+v, want %+v", row.white, row.white.From(false), row.black)
		}
	}
}

// TestSupersedes: which opinion on a position stays.
func TestSupersedes(t *testing.T) {
	for _, row := range []struct {
		name     string
		old, new Opinion
		want     bool
	}{
		{"deeper", Opinion{Depth: 10, Final: true, Given: 9}, Opinion{Depth: 11}, true},
		{"shallower", Opinion{Depth: 10}, Opinion{Depth: 9}, false},
		{"as deep", Opinion{Depth: 10}, Opinion{Depth: 10}, true},
		{"as deep, but the old one is an outcome", Opinion{Depth: 10, Final: true}, Opinion{Depth: 10}, false},
		{"as deep, and both are", Opinion{Depth: 10, Final: true}, Opinion{Depth: 10, Final: true}, true},
		{"the outcome of the same search, which ended at a lower depth", Opinion{Depth: 10, Given: 5}, Opinion{Depth: 9, Given: 5, Final: true}, true},
		{"the outcome of a longer search", Opinion{Depth: 10, Given: 5, Final: true}, Opinion{Depth: 9, Given: 6, Final: true}, true},
		{"the outcome of a shorter search", Opinion{Depth: 10, Given: 5, Final: true}, Opinion{Depth: 9, Given: 4, Final: true}, false},
		{"the outcome of a shorter search than one that was stopped before", Opinion{Depth: 10, Given: 5, Took: 3}, Opinion{Depth: 9, Given: 4, Final: true}, true},
		{"the outcome of a shorter search than one was at work for", Opinion{Depth: 10, Given: 5, Took: 4}, Opinion{Depth: 9, Given: 4, Final: true}, false},
	} {
		if got := row.new.Supersedes(&row.old); got != row.want {
			t.Errorf("%s: %v, want %v", row.name, got, row.want)
		}
	}
	if o := (Opinion{}); !o.Supersedes(nil) {
		t.Error("the first opinion of all is not taken")
	}
}

// TestDiffer: engines are of two minds where they would play different moves and their
// scores are far apart, or only one sees mate.
func TestDiffer(t *testing.T) {
	const one, other = bitboard.Move(1), bitboard.Move(2)
	for _, row := range []struct {
		name string
		a, b *Opinion
		want bool
	}{
		{"far apart", said(9, Score{Centipawns: differBy + 1}, one), said(9, Score{}, other), true},
		{"far apart the other way", said(9, Score{}, one), said(9, Score{Centipawns: differBy + 1}, other), true},
		{"near", said(9, Score{Centipawns: differBy}, one), said(9, Score{}, other), false},
		{"the same move", said(9, Score{Centipawns: 500}, one), said(9, Score{}, one), false},
		{"only a bound", said(9, Score{Centipawns: 500, Bound: AtLeast}, one), said(9, Score{}, other), false},
		{"mate and none", said(9, Score{Mate: 3}, one), said(9, Score{Centipawns: 900}, other), true},
		{"mate in three and in two", said(9, Score{Mate: 3}, one), said(9, Score{Mate: 2}, other), false},
		{"mate for each", said(9, Score{Mate: 3}, one), said(9, Score{Mate: -3}, other), true},
		{"one has said nothing", said(9, Score{Centipawns: 500}, one), nil, false},
		{"one has no line", &Opinion{}, said(9, Score{Centipawns: 500}, one), false},
	} {
		if got := Differ(row.a, row.b); got != row.want {
			t.Errorf("%s: %v, want %v", row.name, got, row.want)
		}
	}
}
