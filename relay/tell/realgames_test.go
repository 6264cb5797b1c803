package tell

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/notnil/chess"

	"clocktell/relay/clock"
	"clocktell/relay/pgn"
)

// class of a real game, as the project notes on move times part them.
const (
	ordinary900 = "900+10"      // two players
	ordinary600 = "600+x"       // the same, increments of 2 to 10 s
	displays    = "900+10 show" // guests of a simultaneous display; the host is left out
)

// realPly is one ply of a real game with what the board says about it.
type realPly struct {
	move   Move
	seen   scene
	scored bool // its time counts: not the untimed first move, not a clock that rose
}

// realGame is a game with clocks, played through by the rules.
type realGame struct {
	class   string
	control clock.Control
	host    clock.Side // of a display
	plies   []realPly
}

// guest reports whether the times of a side are its own: a host's clock runs while
// it stands at other boards.
func (g *realGame) guest(s clock.Side) bool { return g.class != displays || s != g.host }

// realGames reads the games with clocks out of the general-purpose chess library
// github.com/corentings/chess/v2 v2.3.2, folder fixtures/pgns, by class.
func realGames(t testing.TB) map[string][]realGame {
	t.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/corentings/chess/v2").Output()
	if err != nil {
		t.Fatalf("where is the library: %v", err)
	}
	limits := pgn.DefaultLimits
	limits.Games = 20_000 // these files are no packets
	games := make(map[string][]realGame)
	for _, name := range []string{"big.pgn", "big_big.pgn"} {
		text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(dir)), "fixtures", "pgns", name))
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range limits.Read(text) {
			if class := classOf(&g); class != "" {
				games[class] = append(games[class], readReal(t, class, &g))
			}
		}
	}
	return games
}

// classOf names a game's class, "" for one that is not used.
func classOf(g *pgn.Game) string {
	control := g.Tag("TimeControl")
	switch {
	case g.Tag("FEN") != "" || len(g.Moves) == 0:
		return ""
	case control == "900+10" && strings.Contains(g.Tag("Event"), "simul"):
		return displays
	case control == "900+10":
		return ordinary900
	case strings.HasPrefix(control, "600+") && !strings.HasSuffix(control, "+0"):
		return ordinary600
	}
	return ""
}

// readReal plays a game through. A display's host is the side that starts with more.
func readReal(t testing.TB, class string, g *pgn.Game) realGame {
	t.Helper()
	out := realGame{class: class, control: control(t, g.Tag("TimeControl"))}
	position, seen := chess.StartingPosition(), map[string]bool{}
	last := [2]time.Duration{out.control.Start(), out.control.Start()}
	var before, ownBefore *chess.Move
	for i := range g.Moves {
		move, err := chess.AlgebraicNotation{}.Decode(position, g.Moves[i].SAN)
		if err != nil {
			t.Fatalf("%s, move %d: %v", class, i/2+1, err)
		}
		seen[placement(position)] = true
		p := realPly{seen: sceneOf(position, move, before)}
		if ownBefore != nil {
			p.seen.follows = move.S1() == ownBefore.S2()
			p.seen.returns = p.seen.follows && move.S2() == ownBefore.S1()
		}
		next := position.Update(move)
		p.seen.repeats = seen[placement(next)]
		out.time(&p, i, &g.Moves[i], &last)
		p.move.Reply, p.move.Legal, p.move.Rescued = p.seen.reply, p.seen.legal, p.seen.loose
		out.plies = append(out.plies, p)
		position, before, ownBefore = next, move, before
	}
	return out
}

// placement is a position without its move counts.
func placement(p *chess.Position) string { return p.Board().String() + p.Turn().String() }

// time works out what a ply took from the clock printed behind it.
func (g *realGame) time(p *realPly, i int, m *pgn.Move, last *[2]time.Duration) {
	side, inc := clock.Side(i%2), g.control.Increment(i/2+1)
	p.move = Move{Ply: i + 1, Side: side}
	operands, ok := m.Command("clk")
	if !ok || len(operands) == 0 {
		return
	}
	left, err := clock.ParseReading(operands[0])
	if err != nil {
		return
	}
	if i < 2 {
		if i == 1 && left > last[0] {
			g.host = side
		}
		last[side] = left
		p.move.Left = left
		return
	}
	p.move.Left = left
	spent := last[side] + inc - left
	if spent >= 0 && spent <= last[side]+inc {
		p.move.Spent, p.move.Quality, p.scored = spent, clock.QualityRead, true
	}
	last[side] = left
}
