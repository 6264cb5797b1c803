package remark

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"clocktell/relay/bitboard"
	"clocktell/relay/pgn"
)

// libraryGames returns the 11,000 games that come with github.com/corentings/chess/v2
// v2.3.2, which only tests use; every nth of those that begin as usual, n in all.
func libraryGames(tb testing.TB, n int) []pgn.Game {
	tb.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/corentings/chess/v2").Output()
	if err != nil {
		tb.Fatalf("where is the library: %v", err)
	}
	limits := pgn.DefaultLimits
	limits.Games = 20_000 // these files are no packets
	var all []pgn.Game
	for _, name := range []string{"big.pgn", "big_big.pgn"} {
		text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(dir)), "fixtures", "pgns", name))
		if err != nil {
			tb.Fatal(err)
		}
		for _, game := range limits.Read(text) {
			if len(game.Moves) > 0 && game.Tag("FEN") == "" {
				all = append(all, game)
			}
		}
	}
	if len(all) < 10_000 {
		tb.Fatalf("%d games, want more than 10,000", len(all))
	}
	var spread []pgn.Game
	for i := range n {
		spread = append(spread, all[i*len(all)/n])
	}
	return spread
}

// step is one ply of a game with the remarks after it.
type step struct {
	before, after Position
	move          Move
	earlier       []uint64
	state         State
}

// played folds a game.
func played(tb testing.TB, game *pgn.Game) []step {
	tb.Helper()
	p := bitboard.Start()
	state := Begin(&p)
	var steps []step
	var earlier []uint64
	for _, move := range game.Moves {
		m, err := p.ParseSAN(move.SAN)
		if err != nil {
			tb.Fatalf("%s in %s: %v", move.SAN, p.FEN(), err)
		}
		one := step{before: p, move: m}
		earlier = append(earlier, p.Hash())
		p.Make(m)
		if p.HalfmoveClock() == 0 {
			earlier = nil
		}
		state = state.Next(&one.before, m, &p, earlier...)
		one.after, one.state, one.earlier = p, state, append([]uint64(nil), earlier...)
		steps = append(steps, one)
	}
	return steps
}

// fresh returns the remarks that came with the ply.
func (s *step) fresh() []Remark {
	var list []Remark
	for _, r := range s.state.Remarks() {
		if r.Said == s.state.ply {
			list = append(list, r)
		}
	}
	return list
}
