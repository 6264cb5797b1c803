package desk

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/notnil/chess"

	"clocktell/relay/notation"
)

var noon = time.Date(2026, 10, 17, 12, 0, 0, 0, time.UTC)

// played is a game of moves that were played.
type played struct {
	number    int
	positions []*chess.Position
	sans      []string
	moves     []*chess.Move
}

func newPlayed(t *testing.T, fen, moves string) *played {
	t.Helper()
	start := chess.StartingPosition()
	if fen != "" {
		start = &chess.Position{}
		if err := start.UnmarshalText([]byte(fen)); err != nil {
			t.Fatal(err)
		}
	}
	g := &played{positions: []*chess.Position{start}}
	g.play(t, moves)
	return g
}

func (g *played) play(t *testing.T, moves string) {
	t.Helper()
	for _, san := range strings.Fields(moves) {
		before := g.Position(g.Plies())
		move, err := notation.Resolve(before, san)
		if err != nil {
			t.Fatal(err)
		}
		g.sans = append(g.sans, chess.AlgebraicNotation{}.Encode(before, move))
		g.moves, g.positions = append(g.moves, move), append(g.positions, before.Update(move))
	}
}

// takeBack removes the last plies, as a correction does.
func (g *played) takeBack(n int) {
	to := g.Plies() - n
	g.sans, g.moves, g.positions = g.sans[:to], g.moves[:to], g.positions[:to+1]
}

func (g *played) Number() int                      { return g.number }
func (g *played) Plies() int                       { return len(g.moves) }
func (g *played) HalfMove(ply int) int             { return ply + 1 }
func (g *played) FEN(ply int) string               { return g.positions[ply].String() }
func (g *played) Position(ply int) *chess.Position { return g.positions[ply] }
func (g *played) SAN(ply int) string               { return g.sans[ply] }
func (g *played) Squares(ply int) (from, to string) {
	return g.moves[ply].S1().String(), g.moves[ply].S2().String()
}

// table is a show of games, and a desk that is led by hand.
type table struct {
	t     *testing.T
	games []*played
	hot   []Suggestion
	marks map[string][]Mark
	quiet bool
	now   time.Time

	verdicts map[string]Verdict // by FEN
	state    *State
}

func newTable(t *testing.T, moves ...string) *table {
	t.Helper()
	tb := &table{t: t, now: noon, state: New()}
	for _, m := range moves {
		tb.games = append(tb.games, newPlayed(t, "", m))
	}
	tb.follow()
	return tb
}

func (tb *table) Boards() int { return len(tb.games) }
func (tb *table) Quiet() bool { return tb.quiet }

func (tb *table) Verdict(_ int, fen string) (Verdict, error) {
	if v, ok := tb.verdicts[fen]; ok {
		return v, nil
	}
	return Verdict{}, errors.New("the engine has not judged this position yet")
}
func (tb *table) Suggestions() []Suggestion { return tb.hot }
func (tb *table) Game(board int) Game {
	if board < 1 || board > len(tb.games) {
		return nil
	}
	return tb.games[board-1]
}

func (tb *table) Pointed(key string, board int) ([]Mark, int, error) {
	if marks, ok := tb.marks[key]; ok {
		return marks, board, nil
	}
	return nil, 0, errNoGame
}

func (tb *table) follow() { tb.state = tb.state.Advance(tb.now).Follow(tb, tb.now) }

// play lets the game of a board go on.
func (tb *table) play(board int, moves string) {
	tb.t.Helper()
	tb.games[board-1].play(tb.t, moves)
	tb.now = tb.now.Add(time.Second)
	tb.follow()
}

// does does an act and wants it done.
func (tb *table) does(act Act) {
	tb.t.Helper()
	if why := tb.tries(act); why != "" {
		tb.t.Fatalf("%s: %s", act.Action, why)
	}
}

// tries returns why an act was refused, or "".
func (tb *table) tries(act Act) string {
	tb.t.Helper()
	tb.now = tb.now.Add(time.Second)
	act.At = tb.now
	was := *tb.state
	next, told, err := tb.state.Do(act, tb)
	if err != nil {
		if next != tb.state || tb.state.Rev != was.Rev {
			tb.t.Errorf("%s was refused and changed something", act.Action)
		}
		return err.Error()
	}
	if next.Rev != was.Rev+1 || told == "" {
		tb.t.Errorf("%s: revision %d after %d, told %q", act.Action, next.Rev, was.Rev, told)
	}
	tb.state = next
	tb.follow()
	return ""
}

// refused does an act and wants it refused with those words.
func (tb *table) refused(act Act, words string) {
	tb.t.Helper()
	if why := tb.tries(act); !strings.Contains(why, words) || why == "" {
		tb.t.Errorf("%s %s%s%s: %q, want %q", act.Action, act.SAN, act.To, act.Text, why, words)
	}
}

// stands wants the desks to stand behind these moves of a side line, or in the game.
func (tb *table) stands(ply int, line string) {
	tb.t.Helper()
	var sans []string
	for _, m := range tb.state.path(tb.state.Place.Move) {
		sans = append(sans, m.SAN)
	}
	if got := strings.Join(sans, " "); tb.state.Place.Ply != ply || got != line {
		tb.t.Errorf("the desks stand at ply %d with %q, want %d with %q", tb.state.Place.Ply, got, ply, line)
	}
	fen, last := tb.state.Stand(tb)
	if ply+len(sans) > 0 && (last == nil || last.FEN != fen) {
		tb.t.Errorf("the move that led to %s is %+v", fen, last)
	}
}
