package opinion

import "clocktell/relay/bitboard"

// Choice is how hard it is to choose a move.
type Choice struct {
	Hard    Hardness
	Lines   int     // that there are to compare
	Good    int     // of them within goodWithin of the first; all of them: at least so many
	Gap     float64 // points between the first and the second, at least
	Spread  float64 // points between the first and the last, at most
	Changes int     // how often the first choice was another at the next depth, from stepsFrom on
	Settled int     // the depth since which the first choice is the same
	Depth   int
}

// Hardness says how hard a choice is.
type Hardness uint8

// The grades.
const (
	Normal Hardness = iota // or the side stands badly, whatever it plays
	Easy                   // several moves are as good as each other, or the first was so from the start
	Hard                   // hardly any move is good, and the engine found the first one late
)

// What makes a choice hard. Judgement.
const (
	goodWithin = .05 // points; about a third of a pawn in a level game
	hardGap    = .1  // from the good moves to the rest
	stepsFrom  = 4   // plies; what is first before is chance
	hardLate   = .6  // of the depth: the first choice was found no sooner
	hardOften  = 3   // changes
	goodFew    = 2   // good moves at most
)

// Choice returns how hard it is to choose in a position, and false where that is not known
// or nobody has a choice: it takes three lines.
func (o *Opinion) Choice(place *bitboard.Position) (Choice, bool) {
	const least = 3
	if !o.deep() || len(o.Lines) < least || len(o.Steps) == 0 {
		return Choice{}, false
	}
	white := place.Turn() == bitboard.White
	first, last := o.Lines[0].Score.Points(white), o.Lines[len(o.Lines)-1].Score.Points(white)
	c := Choice{
		Lines: len(o.Lines), Depth: o.Depth, Spread: first.High - last.Low, Gap: max(0, first.Low-o.Lines[1].Score.Points(white).High),
	}
	rest := 0.0 // how far the best of the others is behind
	for _, line := range o.Lines {
		if behind := first.High - line.Score.Points(white).Low; behind <= goodWithin {
			c.Good++
		} else if rest == 0 {
			rest = first.Low - line.Score.Points(white).High
		}
	}
	c.Changes, c.Settled = o.stability()
	late := float64(c.Settled) >= hardLate*float64(o.Depth)
	switch {
	case first.Low < holdsFrom: // several moves as bad are no choice
	case c.Good == c.Lines, c.Changes == 0 && c.Gap >= hardGap:
		c.Hard = Easy
	case c.Good >= 1 && c.Good <= goodFew && rest >= hardGap && (late || c.Changes >= hardOften):
		c.Hard = Hard
	}
	return c, true
}

// stability returns how often the first choice changed, and since which depth it stands.
func (o *Opinion) stability() (changes, settled int) {
	last := o.Steps[len(o.Steps)-1].First
	for i := len(o.Steps) - 1; i >= 0 && o.Steps[i].Depth >= stepsFrom; i-- {
		if o.Steps[i].First == last && changes == 0 {
			settled = o.Steps[i].Depth
		}
		if i > 0 && o.Steps[i-1].Depth >= stepsFrom && o.Steps[i-1].First != o.Steps[i].First {
			changes++
		}
	}
	return changes, settled
}

// IsLevel reports that neither side stands better, as deep as anything that is said.
func (o *Opinion) IsLevel() bool {
	return o.deep() && o.Lines[0].Score.holds(true, Level) && o.Lines[0].Score.fails(true, Level)
}

// Quiet reports a position in which nothing is at stake for the moment: level, three lines
// or more within goodWithin, and none of their first moves takes or gives check.
func (o *Opinion) Quiet(place *bitboard.Position) bool {
	c, ok := o.Choice(place)
	if !ok || c.Good < c.Lines || place.InCheck() || !o.IsLevel() {
		return false
	}
	for _, line := range o.Lines {
		after := *place
		after.Make(line.First())
		if place.Piece(line.First().To()) != bitboard.NoPiece || after.InCheck() {
			return false
		}
	}
	return true
}
