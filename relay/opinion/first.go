package opinion

import "clocktell/relay/bitboard"

// FirstChoice is a move that was the engine's own first choice.
type FirstChoice struct {
	Side  bitboard.Colour
	Move  bitboard.Move
	Only  bool // no other would have done
	Clear bool // no other move is nearly as good
	Gives int  // centipawns that it loses by exchange on its square and does not win back soon; 0: nothing
	Was   Score
	Is    Score // after it
	Line  []bitboard.Move
}

const (
	// givesLeast is what a move must give for it to look odd, in centipawns: two pawns.
	givesLeast = 2 * bitboard.PawnValue
	// firstSlack is how much less the opinion after a first choice may promise, in points.
	firstSlack = .1
)

// FirstChoice reports that the move played was what the engine would have played, and still
// is well after it. Whether that is worth a word depends on how odd it looked.
func (m *Moment) FirstChoice() (FirstChoice, bool) {
	if !m.comparable() || !m.Before.settled() || m.Before.Lines[0].First() != m.Move || !m.Place.IsLegal(m.Move) {
		return FirstChoice{}, false
	}
	white := m.Place.Turn() == bitboard.White
	best, is := m.Before.Lines[0], m.After.Lines[0].Score
	if best.Score.Points(white).Low < holdsFrom || is.Points(white).Low < best.Score.Points(white).High-firstSlack {
		return FirstChoice{}, false
	}
	f := FirstChoice{Side: m.Place.Turn(), Move: m.Move, Was: best.Score, Is: is, Line: best.Moves}
	_, f.Only = m.Before.OnlyMove(m.Place)
	if len(m.Before.Lines) > 1 {
		f.Clear = best.Score.Points(white).Low-m.Before.Lines[1].Score.Points(white).High > goodWithin
	}
	if m.Place.Exchange(m.Move) <= -givesLeast {
		if gives := -gained(m.Place, best.Moves, sacrificePlies); gives >= givesLeast {
			f.Gives = gives
		}
	}
	return f, true
}

// sacrificePlies is for how long what a move gives must stay given: two moves of each side.
const sacrificePlies = 4

// gained returns what a side wins in men, in centipawns, by the first plies of a line.
func gained(place *bitboard.Position, line []bitboard.Move, plies int) int {
	at := *place
	for _, m := range line[:min(plies, Playable(place, line))] {
		at.Make(m)
	}
	return material(&at, place.Turn()) - material(place, place.Turn())
}

// material is what a side has more than the other, in centipawns.
func material(p *bitboard.Position, side bitboard.Colour) int {
	sum := 0
	for t := bitboard.Pawn; t < bitboard.King; t++ {
		sum += bitboard.Value(t) * (p.Pieces(side, t).Count() - p.Pieces(side.Other(), t).Count())
	}
	return sum
}
