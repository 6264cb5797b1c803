package opinion

import "math"

// Points is what a side may expect of a game, from 0 for a loss to 1 for a win, as far as
// a score proves it: where that is only a bound, Low or High lies at its end of the scale.
type Points struct{ Low, High float64 }

// pawnsTenfold is the advantage, in hundredths of a pawn, with which a side is taken to
// score ten times what the other does. Only differences matter: the curve is steep where
// games are decided and flat where they are won anyway. Common practice, no source.
const pawnsTenfold = 400

// Points returns what a score promises one side. A mate is the whole point.
func (s Score) Points(white bool) Points {
	s = s.From(white)
	at := 1 / (1 + math.Pow(10, -float64(s.Centipawns)/pawnsTenfold))
	switch {
	case s.Mate > 0:
		at = 1
	case s.Mate < 0:
		at = 0
	}
	switch s.Bound {
	case AtLeast:
		return Points{at, 1}
	case AtMost:
		return Points{0, at}
	}
	return Points{at, at}
}

// Outlook is how a side stands, in a word.
type Outlook int8

// The outlooks, worst first.
const (
	Lost Outlook = iota - 2
	Worse
	Level
	Better
	Won
)

// Limits between the outlooks, in hundredths of a pawn. Half a pawn is what the first move
// and a little more are worth; three pawns are a piece, and a piece wins. Common practice,
// no source.
const (
	levelWithin = 50
	wonFrom     = 300
)

// outlook returns the outlook of a figure, bounds left aside, for the side it is good for when positive.
func (s Score) outlook() Outlook {
	switch cp := s.Centipawns; {
	case s.Mate > 0, s.Mate == 0 && cp >= wonFrom:
		return Won
	case s.Mate < 0, cp <= -wonFrom:
		return Lost
	case cp >= levelWithin:
		return Better
	case cp <= -levelWithin:
		return Worse
	}
	return Level
}

// Outlooks returns the worst and the best that a score allows one side.
func (s Score) Outlooks(white bool) (worst, best Outlook) {
	s = s.From(white)
	worst, best = s.outlook(), s.outlook()
	switch s.Bound {
	case AtLeast:
		best = Won
	case AtMost:
		worst = Lost
	}
	return worst, best
}

// holds reports that a side stands so, or better, beyond doubt.
func (s Score) holds(white bool, least Outlook) bool {
	worst, _ := s.Outlooks(white)
	return worst >= least
}

// fails reports that a side stands so, or worse, beyond doubt.
func (s Score) fails(white bool, most Outlook) bool {
	_, best := s.Outlooks(white)
	return best <= most
}

// matesIn returns in how many moves a side mates for sure, 0 if that is not said.
func (s Score) matesIn(white bool) int {
	s = s.From(white)
	if s.Mate <= 0 || s.Bound == AtMost {
		return 0
	}
	return s.Mate
}
