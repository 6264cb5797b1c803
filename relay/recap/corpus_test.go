package recap

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/notnil/chess"

	"clocktell/relay"
	"clocktell/relay/desk"
	"clocktell/relay/pgn"
	"clocktell/relay/relaytest"
	"clocktell/testdata/demo"
)

// gameOf lets a show take one game, and returns it as the recap has it.
func gameOf(t *testing.T, text string) *Game {
	t.Helper()
	s := relaytest.NewStage()
	s.Take(text)
	w := NewWatch()
	w.See(s.Show)
	games := w.Games()
	if len(games) != 1 {
		t.Fatalf("%d games of one in\n%s", len(games), text)
	}
	return games[0]
}

// corpus returns the demo's games, and some of a library's: github.com/corentings/chess/v2
// v2.3.2, folder fixtures/pgns. Every third has clocks written by chance.
func corpus(t *testing.T, r *rand.Rand, every int) []*Game {
	t.Helper()
	var out []*Game
	for _, name := range []string{"game1.pgn", "game2.pgn"} {
		text, err := demo.FS.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, gameOf(t, string(text)))
	}
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/corentings/chess/v2").Output()
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(dir)), "fixtures", "pgns", "big.pgn"))
	if err != nil {
		t.Fatal(err)
	}
	limits := pgn.DefaultLimits
	limits.Games = 20_000
	for i, game := range limits.Read(text) {
		if i%every != 0 || len(game.Tags) == 0 || len(game.Moves) == 0 {
			continue
		}
		if i%3 == 0 {
			timed(&game, r)
		}
		var one strings.Builder
		if err := pgn.Write(&one, &game); err != nil {
			t.Fatal(err)
		}
		out = append(out, gameOf(t, one.String()))
	}
	return out
}

// timed gives the moves of a game clocks and times, with fractions at times.
func timed(g *pgn.Game, r *rand.Rand) {
	left := [2]time.Duration{2 * time.Hour, 2 * time.Hour}
	for i := range g.Moves {
		spent := time.Duration(r.IntN(90_000)) * time.Millisecond
		left[i%2] -= spent
		c := pgn.Comment{Commands: []pgn.Command{{Name: "clk", Operands: []string{written(left[i%2], r)}}, {Name: "emt", Operands: []string{written(spent, r)}}}}
		g.Moves[i].Notes = &pgn.Notes{Comments: []pgn.Comment{c}}
	}
}

func written(d time.Duration, r *rand.Rand) string {
	text := fmt.Sprintf("%d:%02d:%02d", int(d.Hours()), int(d.Minutes())%60, int(d.Seconds())%60)
	if r.IntN(2) == 0 {
		text += fmt.Sprintf(".%d", d.Milliseconds()/100%10)
	}
	return text
}

// hostile are texts that readers of PGN and HTML stumble over.
var hostile = []string{
	"{brace} and }", "a (b) c [%clk 9:99:99] d", "; rest of the line", "% escape", "[Event \"x\"]", "1. e4 e5 1-0", "tab\tand\nlines\r\nand \u2028 more", "\"quoted\" \\ back",
	"<script>alert(1)</script> & </style><!-- -->", "مرحبا بالعالم", "日本の棋士が長考中", strings.Repeat("長", 300), strings.Repeat("x", 400), "$1 $146 !? ??", "\xff\xfe broken", "", " ", "O-O {", "*",
}

// burden puts sentences, side lines and questions on a game.
func burden(g *Game, r *rand.Rand) {
	n := len(g.Board.Plies)
	for range 1 + r.IntN(4) {
		at := r.IntN(n + 1)
		g.Said = append(g.Said, Said{Key: fmt.Sprint(len(g.Said)), Text: hostile[r.IntN(len(hostile))], By: hostile[r.IntN(len(hostile))], Plies: at})
	}
	for range r.IntN(4) {
		ply := r.IntN(n + 1)
		fen := g.Board.FENAfter(ply)
		if moves := randomLine(fen, g.Board.HalfMove(ply), r); len(moves) > 0 {
			g.Lines = append(g.Lines, Line{Shown: desk.Shown{Ply: ply, FEN: fen, Moves: moves, Name: hostile[r.IntN(len(hostile))]}})
		}
	}
	if r.IntN(3) == 0 {
		ply := r.IntN(n)
		fen := g.Board.FENAfter(ply)
		c := &desk.Challenge{Place: desk.Place{Ply: ply}, FEN: fen, Question: hostile[r.IntN(len(hostile))], Answer: randomLine(fen, g.Board.HalfMove(ply), r)}
		g.Asked = append(g.Asked, c)
	}
	for range r.IntN(3) {
		if at := 1 + r.IntN(n); true {
			g.Raised = append(g.Raised, Raised{Alert: relay.Alert{Kind: relay.AlertFlagNear, Side: []string{"white", "black"}[r.IntN(2)]}, Plies: at, SAN: g.Board.Plies[at-1].SAN})
		}
	}
}

func randomLine(fen string, number int, r *rand.Rand) []desk.Step {
	with, err := chess.FEN(fen)
	if err != nil {
		return nil
	}
	position := chess.NewGame(with).Position()
	var out []desk.Step
	for i := range 1 + r.IntN(9) {
		legal := position.ValidMoves()
		if len(legal) == 0 {
			break
		}
		move := legal[r.IntN(len(legal))]
		next := position.Update(move)
		out = append(out, desk.Step{Number: number + i, SAN: chess.AlgebraicNotation{}.Encode(position, move), From: move.S1().String(), To: move.S2().String(), FEN: next.String()})
		position = next
	}
	return out
}
