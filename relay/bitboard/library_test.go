package bitboard

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	corentings "github.com/corentings/chess/v2"
	notnil "github.com/notnil/chess"

	"clocktell/relay/pgn"
)

// libraryFile returns a file of games that come with a Go module which only tests use.
func libraryFile(tb testing.TB, name string) []byte {
	tb.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/corentings/chess/v2").Output()
	if err != nil {
		tb.Fatalf("where is the library: %v", err)
	}
	text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(dir)), "fixtures", "pgns", name))
	if err != nil {
		tb.Fatal(err)
	}
	return text
}

var libraryFiles = []string{"big.pgn", "big_big.pgn"}

func libraryGames(tb testing.TB, name string) []pgn.Game {
	tb.Helper()
	limits := pgn.DefaultLimits
	limits.Games = 20_000 // these files are no packets
	return limits.Read(libraryFile(tb, name))
}

// full reports whether the long tests are asked for.
func full() bool { return os.Getenv("CLOCKTELL_TESTS") == "all" }

// TestLibraryGames replays the 11,000 games that come with
// github.com/corentings/chess/v2 v2.3.2 and holds one in forty against that library and
// github.com/notnil/chess v1.10.0, with CLOCKTELL_TESTS=all every one: the final
// position, and for one in 400 (or eleven) the legal moves and the SAN of every ply. In
// every game the hash is that of the same position from scratch.
func TestLibraryGames(t *testing.T) {
	every, everyClose := 40, 400
	if full() {
		every, everyClose = 1, 11
	}
	games, plies, ended, closely := 0, 0, 0, 0
	for _, name := range libraryFiles {
		for i, game := range libraryGames(t, name) {
			moves := playOut(t, &game)
			games, plies = games+1, plies+len(moves)
			if i%every == 0 {
				ended++
				compareEnds(t, &game, moves)
			}
			if i%everyClose == 0 {
				closely++
				comparePlies(t, &game, moves)
			}
			if t.Failed() {
				t.Fatalf("%s, game %d", name, i+1)
			}
		}
	}
	t.Logf("%d games with %d plies replayed, the ends of %d and every ply of %d compared", games, plies, ended, closely)
	if games < 11_000 {
		t.Errorf("%d games, want 11,000", games)
	}
}

func begin(tb testing.TB, g *pgn.Game) Position {
	tb.Helper()
	if fen := g.Tag("FEN"); fen != "" {
		return mustFEN(tb, fen)
	}
	return Start()
}

// playOut replays a game from its SAN and holds the hash to the one from scratch.
func playOut(t *testing.T, g *pgn.Game) []Move {
	t.Helper()
	p := begin(t, g)
	moves := make([]Move, 0, len(g.Moves))
	for _, move := range g.Moves {
		m, err := p.ParseSAN(move.SAN)
		if err != nil {
			t.Fatalf("%s in %s: %v", move.SAN, p.FEN(), err)
		}
		p.Make(m)
		moves = append(moves, m)
		if p.hash != p.fullHash() {
			t.Fatalf("after %s: hash %x, from scratch %x: %s", move.SAN, p.hash, p.fullHash(), p.FEN())
		}
	}
	return moves
}

// fields returns the first n fields of a FEN: placement, side, castling.
func fields(fen string, n int) string { return strings.Join(strings.Fields(fen)[:n], " ") }

// compareEnds plays the game's own words with one library and our moves with the other,
// and compares what stands on the board at the end.
func compareEnds(t *testing.T, g *pgn.Game, moves []Move) {
	t.Helper()
	p := begin(t, g)
	first := p.FEN()
	for _, m := range moves {
		p.Make(m)
	}
	theirs := corentingsAt(t, first)
	for _, move := range g.Moves {
		m, err := corentings.AlgebraicNotation{}.Decode(theirs, move.SAN)
		if err != nil {
			t.Fatalf("the library: %s: %v", move.SAN, err)
		}
		theirs = theirs.Update(m)
	}
	if got, want := fields(p.FEN(), 3), fields(theirs.String(), 3); got != want {
		t.Errorf("ends in %s, corentings has %s", got, want)
	}
	other := notnilAt(t, first)
	for _, m := range moves {
		move, err := notnil.UCINotation{}.Decode(other, m.String())
		if err != nil {
			t.Fatalf("the library: %s: %v", m, err)
		}
		other = other.Update(move)
	}
	if got, want := p.FEN(), other.String(); got != want {
		t.Errorf("ends in %s, notnil has %s", got, want)
	}
}

func notnilAt(tb testing.TB, fen string) *notnil.Position {
	tb.Helper()
	p := &notnil.Position{}
	if err := p.UnmarshalText([]byte(fen)); err != nil {
		tb.Fatal(err)
	}
	return p
}

func corentingsAt(tb testing.TB, fen string) *corentings.Position {
	tb.Helper()
	p := &corentings.Position{}
	if err := p.UnmarshalText([]byte(fen)); err != nil {
		tb.Fatal(err)
	}
	return p
}

// comparePlies compares legal moves and the SAN of the move played, ply for ply.
func comparePlies(t *testing.T, g *pgn.Game, moves []Move) {
	t.Helper()
	p := begin(t, g)
	for _, m := range moves {
		fen := p.FEN()
		a, b := notnilAt(t, fen), corentingsAt(t, fen)
		var as, bs []string
		san := p.SAN(m)
		for _, move := range a.ValidMoves() {
			as = append(as, move.String())
			if text := (notnil.AlgebraicNotation{}).Encode(a, move); move.String() == m.String() && text != san {
				t.Errorf("SAN of %s in %s is %s, notnil has %s", m, fen, san, text)
			}
		}
		for _, move := range b.ValidMoves() {
			bs = append(bs, move.String())
			if text := (corentings.AlgebraicNotation{}).Encode(b, &move); move.String() == m.String() && text != san {
				t.Errorf("SAN of %s in %s is %s, corentings has %s", m, fen, san, text)
			}
		}
		ours := moveNames(&p)
		slices.Sort(as)
		slices.Sort(bs)
		if !slices.Equal(ours, as) || !slices.Equal(ours, bs) {
			t.Errorf("legal moves in %s:\n%v\nnotnil:\n%v\ncorentings:\n%v", fen, ours, as, bs)
		}
		p.Make(m)
	}
}

func moveNames(p *Position) []string {
	var names []string
	for _, m := range p.Moves(nil) {
		names = append(names, m.String())
	}
	slices.Sort(names)
	return names
}
