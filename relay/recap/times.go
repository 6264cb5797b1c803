package recap

import (
	"fmt"
	"strconv"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
)

func (in *Words) colour(side clock.Side) string {
	if side == clock.White {
		return in.White
	}
	return in.Black
}

// pathOf writes a path, its lengths to a hundredth of a pixel.
func pathOf(format string, lengths ...float64) string {
	parts := make([]any, len(lengths))
	for i, x := range lengths {
		parts[i] = strconv.FormatFloat(x, 'f', 2, 64)
	}
	return fmt.Sprintf(format, parts...)
}

// leftAtEnd tells what a side had left when the game was over, or was seen last; "" unknown.
func leftAtEnd(g *Game, in *Words, side clock.Side) string {
	b := g.Board
	if len(b.Plies) == 0 || b.Last(side).LeftQuality == clock.QualityNone {
		return ""
	}
	at := g.At
	switch {
	case !b.EndedAt.IsZero():
		at = b.EndedAt
	case b.Held():
		at = b.HeldAt
	}
	return fill(in.Left, clock.Format(b.Left(side, at)))
}

// gameTime is what both sides have spent on so many plies; false where nothing is known.
func (g *Game) gameTime(plies int) (time.Duration, bool) {
	sum, known := time.Duration(0), false
	for i := range min(plies, len(g.Board.Plies)) {
		timed := &g.Board.Plies[i].Timed
		sum += max(0, timed.Spent)
		known = known || timed.SpentQuality != clock.QualityNone
	}
	return sum, known
}

// timed reports that some time of the game is known.
func (g *Game) timed() bool {
	_, known := g.gameTime(len(g.Board.Plies))
	return known
}

// used is what a side has spent on its moves from the full move from up to the one before to.
func (g *Game) used(side clock.Side, from, to int) (sum time.Duration, moves int, left string) {
	for i := range g.Board.Plies {
		move, mover := g.Board.MoveNumber(i)
		timed := &g.Board.Plies[i].Timed
		if mover != side || move < from || move >= to {
			continue
		}
		moves++
		sum += max(0, timed.Spent)
		left = ""
		if timed.LeftQuality != clock.QualityNone {
			left = clock.Format(timed.Left)
		}
	}
	return sum, moves, left
}

// Bounds of how long a think is to be told with its move.
const (
	tellLeast = 20 * time.Second
	tellMost  = 10 * time.Minute
	tellShare = 15 // of the base time
)

// tellFrom is from which length on thinks are told with their moves.
func tellFrom(b *relay.Board) time.Duration {
	if !b.Control.Known() {
		return time.Minute
	}
	return min(max(b.Control.Start()/tellShare, tellLeast), tellMost).Round(5 * time.Second)
}

// phase is a stretch of a game: so many full moves of both sides.
const phaseMoves = 10

// phases returns the first moves of the stretches of ten that a game has.
func (g *Game) phases() []int {
	n := len(g.Board.Plies)
	if n == 0 {
		return nil
	}
	first, _ := g.Board.MoveNumber(0)
	last, _ := g.Board.MoveNumber(n - 1)
	var out []int
	for from := (first-1)/phaseMoves*phaseMoves + 1; from <= last; from += phaseMoves {
		out = append(out, from)
	}
	return out
}
