package relay_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"clocktell/relay/bitboard"
	"clocktell/relay/pgn"
	"clocktell/relay/prompt"
	"clocktell/relay/remark"
)

// remarkGames is how many games, spread over the 11,000 of the library, are reviewed.
const remarkGames = 50

// TestRemarkReview counts what is said of positions in games that come with
// github.com/corentings/chess/v2 v2.3.2, which only tests use. With -v every sentence is printed
// with its board, to be read by eye.
func TestRemarkReview(t *testing.T) {
	byRule := make(map[remark.Rule]int)
	var perMove []int
	plies := 0
	for i, game := range spreadGames(t, remarkGames) {
		print := func(string, ...any) {}
		if testing.Verbose() {
			print = func(format string, args ...any) { fmt.Printf(format, args...) }
		}
		print("\n# game %d\n", i+1)
		perMove = append(perMove, reviewGame(t, &game, byRule, print)...)
		plies += len(game.Moves)
	}
	slices.Sort(perMove)
	total := 0
	for _, rule := range remark.Rules() {
		t.Logf("%5.2f a game: %s", float64(byRule[rule])/remarkGames, rule)
		total += byRule[rule]
	}
	most := perMove[len(perMove)-1]
	t.Logf("%d games of %d plies: %.1f a game, %.1f in 40 moves; in a full move median %d, most %d",
		remarkGames, plies, float64(total)/remarkGames, float64(total)*80/float64(plies), perMove[len(perMove)/2], most)
	if most > 2 || total == 0 {
		t.Errorf("%d remarks, up to %d in a full move; want some, and one a ply at most", total, most)
	}
}

// reviewGame counts the remarks of a game by rule and returns how many each full move has.
func reviewGame(t *testing.T, game *pgn.Game, byRule map[remark.Rule]int, print func(string, ...any)) []int {
	perMove := make([]int, (len(game.Moves)+1)/2)
	p := bitboard.Start()
	state := remark.Begin(&p)
	var hashes []uint64
	for i, move := range game.Moves {
		m, err := p.ParseSAN(move.SAN)
		if err != nil {
			t.Fatalf("%s in %s: %v", move.SAN, p.FEN(), err)
		}
		before := p
		hashes = append(hashes, p.Hash())
		p.Make(m)
		if p.HalfmoveClock() == 0 {
			hashes = nil
		}
		state = state.Next(&before, m, &p, hashes...)
		for _, r := range state.Remarks() {
			if int(r.Said) != i+1 {
				continue
			}
			byRule[r.Rule]++
			perMove[i/2]++
			say := prompt.Position(prompt.English, &r, r.Side.String())
			print("%s%-8s %s\n         [%s] %s\n         %s\n", number(i), move.SAN, say.Text, r.Rule, say.Evidence, p.FEN())
		}
	}
	return perMove
}

func number(i int) string {
	if i%2 == 0 {
		return fmt.Sprintf("%3d.   ", i/2+1)
	}
	return fmt.Sprintf("%3d... ", i/2+1)
}

// spreadGames returns n games, spread evenly over those of the library that begin as usual.
func spreadGames(tb testing.TB, n int) []pgn.Game {
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
	spread := make([]pgn.Game, 0, n)
	for i := range n {
		spread = append(spread, all[i*len(all)/n])
	}
	return spread
}
