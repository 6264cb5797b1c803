package facts

import (
	"slices"
	"strings"
	"testing"
	"unicode"

	"clocktell/relay/bitboard"
)

// mirrored turns the board upside down and swaps the colours, with a FEN alone.
func mirrored(tb testing.TB, p *Position) Position {
	tb.Helper()
	fields := strings.Fields(p.FEN())
	ranks := strings.Split(fields[0], "/")
	slices.Reverse(ranks)
	fields[0] = swapCase(strings.Join(ranks, "/"))
	fields[1] = map[string]string{"w": "b", "b": "w"}[fields[1]]
	fields[2] = swapCase(fields[2])
	fields[3] = strings.NewReplacer("3", "6", "6", "3").Replace(fields[3])
	return position(tb, strings.Join(fields, " "))
}

func swapCase(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsUpper(r) {
			return unicode.ToLower(r)
		}
		return unicode.ToUpper(r)
	}, text)
}

// mirroredFact is what a fact becomes on the mirrored board.
func mirroredFact(f Fact) Fact {
	g := f
	if !f.Kind.Neutral() {
		g.Side = f.Side.Other()
	}
	if f.Move != bitboard.NoMove {
		g.Move = bitboard.NewMove(f.Move.From()^56, f.Move.To()^56, f.Move.Promotion())
	}
	for i, square := range f.Squares() {
		g.on[i] = square ^ 56
		if f.men[i] != bitboard.NoPiece {
			g.men[i] = bitboard.NewPiece(f.men[i].Colour().Other(), f.men[i].Type())
		}
	}
	if f.Kind.Neutral() && g.count == 2 { // these name White's end or bishop first
		g.on[0], g.on[1] = g.on[1], g.on[0]
		g.men[0], g.men[1] = g.men[1], g.men[0]
	}
	return g
}

// TestSymmetry mirrors positions of the library's games: the facts must be the same with
// the sides swapped.
func TestSymmetry(t *testing.T) {
	n := 1000
	if full() {
		n = 20_000
	}
	seen := make(map[Kind]bool)
	for _, p := range libraryPositions(t, n, 1) {
		other := mirrored(t, &p)
		var want []string
		for _, f := range Of(&p) {
			seen[f.Kind] = true
			want = append(want, mirroredFact(f).String())
		}
		var got []string
		for _, f := range Of(&other) {
			got = append(got, f.String())
		}
		slices.Sort(want)
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Fatalf("%s\n%s\nwant\n%s", other.FEN(), strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
	}
	t.Logf("%d positions with %d kinds of facts", n, len(seen))
	if len(seen) < 45 {
		t.Errorf("only %d kinds of facts in %d positions: too few to say anything", len(seen), n)
	}
}

// TestDistinct: no list has a fact twice, which Changes relies on, and no fact points at a
// square twice.
func TestDistinct(t *testing.T) {
	for _, p := range libraryPositions(t, 1000, 2) {
		facts := Of(&p)
		for i, f := range facts {
			if facts[:i].contains(&f) {
				t.Errorf("%s: twice: %s", p.FEN(), f)
			}
			if n := f.Set().Count(); n != len(f.Squares()) {
				t.Errorf("%s: a square twice: %s", p.FEN(), f)
			}
		}
	}
}
