package recap

import (
	"fmt"

	"clocktell/relay/clock"
	"clocktell/relay/opinion"
)

// When a second opinion has turned: by so many hundredths of a pawn with one move, of scores cut
// to a range in which such a turn still decides something.
const (
	swingLeast = 150
	swingRange = 600
	worthSwing = 62
)

// swings returns the moves with which an engine's verdict turned against their side. Where no
// engine was asked there are none.
func (g *Game) swings(in *Words) []Moment {
	var out []Moment
	for i := range g.Board.Plies {
		before, ok := g.verdict(i)
		after, also := g.verdict(i + 1)
		if !ok || !also {
			continue
		}
		lost := within(before) - within(after)
		if _, mover := g.Board.MoveNumber(i); mover == clock.Black {
			lost = -lost
		}
		if lost >= swingLeast {
			text := fill(in.Turned, in.verdict(before), g.spell(in, i), in.verdict(after))
			out = append(out, Moment{Plies: i + 1, Kind: "swing", Text: text, worth: worthSwing + lost/100})
		}
	}
	return out
}

// verdict returns what an engine thinks after so many plies, if that is more than a bound.
func (g *Game) verdict(plies int) (opinion.Score, bool) {
	best, ok := g.Board.OpinionAt(plies).Best()
	return best.Score, ok && best.Score.Bound == opinion.Exact
}

// within returns a score in hundredths of a pawn, cut to the range; a mate is at its end.
func within(s opinion.Score) int {
	switch {
	case s.Mate > 0:
		return swingRange
	case s.Mate < 0:
		return -swingRange
	}
	return max(-swingRange, min(swingRange, s.Centipawns))
}

// verdict writes a score from White's view: "+1.2", "White mates in 3".
func (in *Words) verdict(s opinion.Score) string {
	switch {
	case s.Mate > 0:
		return fill(in.Mates, in.White, s.Mate)
	case s.Mate < 0:
		return fill(in.Mates, in.Black, -s.Mate)
	}
	return fmt.Sprintf("%+.1f", float64(s.Centipawns)/100)
}
