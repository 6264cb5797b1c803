package facts

import (
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"clocktell/relay/bitboard"
	"clocktell/relay/pgn"
)

// full reports whether the long tests are asked for.
func full() bool { return os.Getenv("CLOCKTELL_TESTS") == "all" }

// libraryGames returns the games of a file that comes with github.com/corentings/chess/v2
// v2.3.2, which only tests use. big.pgn has 1,000 games, big_big.pgn 10,000.
func libraryGames(tb testing.TB, name string) []pgn.Game {
	tb.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/corentings/chess/v2").Output()
	if err != nil {
		tb.Fatalf("where is the library: %v", err)
	}
	text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(dir)), "fixtures", "pgns", name))
	if err != nil {
		tb.Fatal(err)
	}
	limits := pgn.DefaultLimits
	limits.Games = 20_000 // these files are no packets
	return limits.Read(text)
}

// libraryPositions returns n positions, each from another game of the 11,000, or from two
// when n is greater, each at a ply drawn at random with that seed.
func libraryPositions(tb testing.TB, n int, seed uint64) []Position {
	tb.Helper()
	games := append(libraryGames(tb, "big.pgn"), libraryGames(tb, "big_big.pgn")...)
	if len(games) < 11_000 {
		tb.Fatalf("%d games, want 11,000", len(games))
	}
	draw := rand.New(rand.NewPCG(seed, 0))
	var found []Position
	for len(found) < n {
		for _, i := range draw.Perm(len(games)) {
			game := &games[i]
			if len(game.Moves) == 0 || game.Tag("FEN") != "" {
				continue
			}
			found = append(found, after(tb, game, 1+draw.IntN(len(game.Moves))))
			if len(found) == n {
				break
			}
		}
	}
	return found
}

// after plays the first plies of a game.
func after(tb testing.TB, game *pgn.Game, plies int) Position {
	tb.Helper()
	p := bitboard.Start()
	for _, move := range game.Moves[:plies] {
		m, err := p.ParseSAN(move.SAN)
		if err != nil {
			tb.Fatalf("%s in %s: %v", move.SAN, p.FEN(), err)
		}
		p.Make(m)
	}
	return p
}

func position(tb testing.TB, fen string) Position {
	tb.Helper()
	p, err := bitboard.ParseFEN(fen)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}
