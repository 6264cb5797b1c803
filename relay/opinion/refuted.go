package opinion

import "clocktell/relay/bitboard"

// Refutation says why the natural move fails.
type Refutation struct {
	Side    bitboard.Colour
	Why     Natural
	Move    bitboard.Move   // the natural one
	Best    []bitboard.Move // what to play instead
	Answer  []bitboard.Move // to the natural move, playable from behind it
	Was, Is Score           // with the best move, and with the natural one, from White's view
	Lost    float64         // points, at least
}

// Refutation returns the answer to a natural move that is among the lines, gives away as
// much as a swing does, and leaves its side level at most. A move that is not among them may
// fail as well; why is not known. Where another man may take on the same square, and is among
// the lines, there is no refutation: people look at both.
func (o *Opinion) Refutation(place *bitboard.Position, natural bitboard.Move, why Natural) (Refutation, bool) {
	if why == NotNatural || !o.deep() || !o.settled() || o.Lines[0].First() == natural {
		return Refutation{}, false
	}
	line, ok := o.line(natural)
	if !ok || len(line.Moves) < 2 || line.Depth < depthLeast || Playable(place, line.Moves) < 2 {
		return Refutation{}, false
	}
	white := place.Turn() == bitboard.White
	best := o.Lines[0]
	worst, _ := best.Score.Outlooks(white)
	_, most := line.Score.Outlooks(white)
	lost := best.Score.Points(white).Low - line.Score.Points(white).High
	if lost < swingLeast || worst <= most || most > Level || o.twiceTo(natural.To()) {
		return Refutation{}, false
	}
	return Refutation{
		Side: place.Turn(), Why: why, Move: natural, Best: best.Moves, Answer: line.Moves[1:Playable(place, line.Moves)],
		Was: best.Score, Is: line.Score, Lost: lost,
	}, true
}

// twiceTo reports that two lines begin with a move to a square.
func (o *Opinion) twiceTo(square bitboard.Square) bool {
	n := 0
	for _, line := range o.Lines {
		if line.First().To() == square {
			n++
		}
	}
	return n > 1
}
