package recap

import (
	"strings"

	"clocktell/relay"
	"clocktell/relay/clock"
)

// ledeLeast is how many moves from preparation are worth a word.
const ledeLeast = 3

// lede tells a game in two or three sentences, as its clocks tell it; "" where they do not.
func lede(g *Game, in *Words) string {
	b := g.Board
	if !g.timed() {
		return ""
	}
	var out []string
	white, black := g.prepared(clock.White), g.prepared(clock.Black)
	switch {
	case white >= ledeLeast && black >= ledeLeast:
		out = append(out, fill(in.BothPrepared, b.Called(clock.White), white, b.Called(clock.Black), black))
	case white >= ledeLeast:
		out = append(out, fill(in.OnePrepared, b.Called(clock.White), white))
	case black >= ledeLeast:
		out = append(out, fill(in.OnePrepared, b.Called(clock.Black), black))
	}
	if i := g.novelty(); i >= 0 {
		out = append(out, fill(in.WasNew, g.spell(in, i)))
	}
	for _, side := range []clock.Side{clock.White, clock.Black} {
		if i := g.trouble(side); i >= 0 {
			move, _ := b.MoveNumber(i)
			out = append(out, fill(in.InTrouble, b.Called(side), move))
		}
	}
	return strings.Join(out, " ")
}

// prepared counts the moves that a side began the game with and played from preparation.
func (g *Game) prepared(side clock.Side) int {
	n := 0
	for i := range g.Board.Plies {
		if _, mover := g.Board.MoveNumber(i); mover != side {
			continue
		}
		if g.Board.Plies[i].Look != relay.LookPreparation {
			break
		}
		n++
	}
	return n
}

// trouble returns the index of the first move that a side made in time trouble, -1 for none.
func (g *Game) trouble(side clock.Side) int {
	for i := range g.Board.Plies {
		if _, mover := g.Board.MoveNumber(i); mover == side && g.Board.Plies[i].Look == relay.LookTrouble {
			return i
		}
	}
	return -1
}
