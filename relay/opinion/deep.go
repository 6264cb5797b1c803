package opinion

import "clocktell/relay/bitboard"

// What an opinion must have come through before anything is said on it. Judgement, by
// reading what was called over whole games.
const (
	// depthLeast is how deep, in plies, all lines must have been searched. What turns up
	// three moves of each side later is then seen with what answers it.
	depthLeast = 12
	// depthLag is by how much the opinion after a move may be shallower than that before.
	depthLag = 3
	// settledSteps is for how many depths the first move must have been the same, and by how
	// many a score is judged.
	settledSteps = 3
)

// deep reports that an opinion has gone deep enough to be quoted.
func (o *Opinion) deep() bool {
	best, ok := o.Best()
	return ok && o.Depth >= depthLeast && best.Depth >= depthLeast
}

// settled reports that the first move has stood for some depths.
func (o *Opinion) settled() bool {
	n := len(o.Steps)
	if n < settledSteps {
		return false
	}
	for _, step := range o.Steps[n-settledSteps:] {
		if step.First != o.Lines[0].First() {
			return false
		}
	}
	return true
}

// firm returns what the first line promises a side, widened by what was thought at the last
// few depths: a score that has just jumped may jump back.
func (o *Opinion) firm(white bool) Points {
	p := o.Lines[0].Score.Points(white)
	for _, step := range o.Steps[max(0, len(o.Steps)-settledSteps):] {
		at := step.Score.Points(white)
		p.Low, p.High = min(p.Low, at.Low), max(p.High, at.High)
	}
	return p
}

// line returns what an opinion says of a move, and false if it is not among the lines.
func (o *Opinion) line(m bitboard.Move) (Line, bool) {
	for _, line := range o.Lines {
		if line.First() == m {
			return line, true
		}
	}
	return Line{}, false
}

// Playable returns how many moves of a line can be played from a position.
func Playable(place *bitboard.Position, moves []bitboard.Move) int {
	at := *place
	for i, m := range moves {
		if !at.IsLegal(m) {
			return i
		}
		at.Make(m)
	}
	return len(moves)
}
