package facts

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"

	"clocktell/relay/bitboard"
)

func TestChanges(t *testing.T) {
	g := play(t, bitboard.StartFEN, "e4 e5 Nf3 Nc6 Bc4 Nf6 Ng5")
	before := g.Facts()
	p := g.Position()
	m, err := p.ParseSAN("h6")
	if err != nil {
		t.Fatal(err)
	}
	g.Play(m)
	change := Changes(before, g.Facts())
	for _, test := range []struct {
		facts Facts
		kind  Kind
		want  []string
	}{
		{change.Came, Hanging, []string{"White Ng5 ph6 300"}},
		{change.Went, Hanging, nil},
		{change.Went, CastlingBlocked, nil},
		{change.Came, CastlingBlocked, nil},
	} {
		if got := lines(test.facts, test.kind); !slices.Equal(got, test.want) {
			t.Errorf("%s: %q, want %q", test.kind, got, test.want)
		}
	}
}

// TestChangesAddUp: what was before, less what went, with what came, is what is now; over
// whole games.
func TestChangesAddUp(t *testing.T) {
	for i, game := range libraryGames(t, "big.pgn") {
		if i%100 != 0 || game.Tag("FEN") != "" {
			continue
		}
		g := NewGame(bitboard.Start())
		before := g.Facts()
		for _, move := range game.Moves {
			p := g.Position()
			m, err := p.ParseSAN(move.SAN)
			if err != nil {
				t.Fatal(err)
			}
			g.Play(m)
			now := g.Facts()
			change := Changes(before, now)
			var sum Facts
			for _, f := range before {
				if !change.Went.contains(&f) {
					sum = append(sum, f)
				}
			}
			sum = append(sum, change.Came...)
			if len(sum) != len(now) || slices.ContainsFunc(now, func(f Fact) bool { return !sum.contains(&f) }) {
				t.Fatalf("game %d, %s: %v and not %v", i+1, move.SAN, sum, now)
			}
			before = now
		}
	}
}

// TestKinds: every kind that is declared in the files of kinds has a name of its own.
func TestKinds(t *testing.T) {
	declared := 0
	paths, _ := filepath.Glob("kind*.go")
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		declared += len(regexp.MustCompile(`(?m)^\t[A-Z]\w+( = iota.*)?$`).FindAll(text, -1))
	}
	kinds := Kinds()
	if len(kinds) != declared || declared < 60 {
		t.Errorf("%d kinds have a name, %d are declared", len(kinds), declared)
	}
	names := make(map[string]bool)
	for _, k := range kinds {
		names[k.String()] = true
	}
	if len(names) != len(kinds) || Kind(0).String() != "no kind" {
		t.Error("two kinds have one name, or what is no kind has one")
	}
}

// TestMostSquares: nine pawns on a wing, which only a setup has, are more than a fact points at.
func TestMostSquares(t *testing.T) {
	p := position(t, "4k3/8/8/8/8/PPP5/PPPP4/4K3 w - - 0 1")
	if f := Of(&p).Of(Majority)[0]; len(f.Squares()) != 7 || f.Amount != 7 {
		t.Errorf("seven pawns: %s", f)
	}
	p = position(t, "4k3/8/8/8/PP6/PPP5/PPPP4/4K3 w - - 0 1")
	if f := Of(&p).Of(Majority)[0]; len(f.Squares()) != MostSquares || f.Amount != 9 {
		t.Errorf("nine pawns: %s", f)
	}
}

// TestCrowded: more moves than MaxMoves, and more facts than the usual room, are no fault.
func TestCrowded(t *testing.T) {
	p := position(t, "QQQQQQQQ/8/8/8/8/8/k1Q3Q1/QQQ1K1QQ b - - 0 1")
	Of(&p)
	p = position(t, "R6R/3Q4/1Q4Q1/4Q3/2Q4Q/Q4Q2/pp1Q4/kBNN1KB1 w - - 0 1")
	facts := Of(&p)
	var room [bitboard.MaxMoves]Move
	if n := len(p.Moves(room[:0])); n != bitboard.MaxMoves {
		t.Errorf("%d moves, the position is known for %d (from memory)", n, bitboard.MaxMoves)
	}
	if !facts.Has(MateOffer, bitboard.White) {
		t.Errorf("no mate among so many moves")
	}
}
