package opinion

import "clocktell/relay/bitboard"

// OnlyMove is a move that alone keeps what its side has: with the next best it is lost, or
// the win is gone.
type OnlyMove struct {
	Side         bitboard.Colour
	Move         bitboard.Move
	Best, Second Score           // from White's view
	Wins         bool            // it keeps a win; else it keeps the side in the game
	Ahead        bool            // it keeps the side better, though it does not win
	Loses        float64         // points that the next best gives away, at least
	Line         []bitboard.Move // from the move on
	Next         []bitboard.Move // the next best and its answer
}

// OnlyMove returns the move that alone will do in a position. It takes two lines, both deep,
// and a first move that has settled. The side must not be worse by a whole class with it
// than level: what is bad anyway needs no only move.
func (o *Opinion) OnlyMove(place *bitboard.Position) (OnlyMove, bool) {
	if !o.deep() || len(o.Lines) < 2 || !o.settled() {
		return OnlyMove{}, false
	}
	white := place.Turn() == bitboard.White
	best, second := o.Lines[0], o.Lines[1]
	loses := best.Score.Points(white).Low - second.Score.Points(white).High
	wins := best.Score.holds(white, Won) && second.Score.fails(white, Better) && second.Score.Points(white).High <= stillHope
	holds := best.Score.Points(white).Low >= holdsFrom && !best.Score.holds(white, Won) && second.Score.fails(white, Lost)
	if loses < onlyLeast || !wins && !holds || len(second.Moves) == 0 {
		return OnlyMove{}, false
	}
	return OnlyMove{
		Side: place.Turn(), Move: best.First(), Best: best.Score, Second: second.Score, Wins: wins, Ahead: !wins && best.Score.holds(white, Better),
		Loses: loses, Line: best.Moves, Next: second.Moves,
	}, true
}

// Margins of an only move, in points. Judgement, by reading what was called over whole games.
const (
	onlyLeast = .2
	holdsFrom = .35 // about a pawn behind: the game goes on
	stillHope = .7  // about a pawn and a half ahead: no longer a win that anybody counts on
)
