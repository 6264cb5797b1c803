package opinion

import "clocktell/relay/bitboard"

// Moment is a move with the opinions on both sides of it.
type Moment struct {
	Place         *bitboard.Position // before the move
	Move          bitboard.Move
	Before, After *Opinion // nil: none
}

// Swing is a move that changed the outlook: its side gave away at least swingLeast points,
// measured from the least that the best move before it promised over the last depths to the
// most that the answer to it leaves over the last depths.
type Swing struct {
	Side     bitboard.Colour // the mover; the other side gained
	Was, Is  Score           // from White's view
	From, To Outlook         // of the mover
	Lost     float64         // points, at least
	Best     []bitboard.Move // what should have been played, from before the move
	Answer   []bitboard.Move // what it allows, from after it
}

// How much a move must give away. Judgement, by reading what was called over whole games.
const (
	// swingLeast is what a pawn and a half is worth in a level game, and more pawns where
	// a side is well ahead: there nothing turns.
	swingLeast = .2
	// swingGreat turns a game upside down, such as from level to lost.
	swingGreat = .33
)

// Great reports a swing that cannot wait.
func (s *Swing) Great() bool { return s.Lost >= swingGreat }

// Swing returns what the move gave away. Both opinions must be deep, of the same engine,
// and the one before settled; a move that was the first choice is never blamed, whatever
// came out later, and one that was among the lines must have been seen to be worse there.
func (m *Moment) Swing() (Swing, bool) {
	if !m.comparable() || m.Before.Lines[0].First() == m.Move {
		return Swing{}, false
	}
	white := m.Place.Turn() == bitboard.White
	best, answer := m.Before.Lines[0], m.After.Lines[0]
	is := answer.Score
	high := m.After.firm(white).High
	if line, ok := m.Before.line(m.Move); ok {
		high = max(high, line.Score.Points(white).High)
	}
	lost := m.Before.firm(white).Low - high
	from, _ := best.Score.Outlooks(white)
	_, to := is.Outlooks(white)
	if lost < swingLeast || from <= to {
		return Swing{}, false
	}
	return Swing{
		Side: m.Place.Turn(), Was: best.Score, Is: is, From: from, To: to, Lost: lost, Best: best.Moves, Answer: answer.Moves,
	}, true
}

// comparable reports that what was thought before and after the move can be compared.
func (m *Moment) comparable() bool {
	return m.Before.deep() && m.After.deep() && m.Before.Engine == m.After.Engine && m.After.Depth >= m.Before.Depth-depthLag
}

// mateMost is the longest mate that is worth a word when it is missed: three moves can be
// shown at once. Judgement.
const mateMost = 3

// MissedMate is a mate in a few moves that was not played, nor any mate that followed.
type MissedMate struct {
	Side bitboard.Colour
	In   int // moves
	Best []bitboard.Move
	Is   Score // after the move played, from White's view
}

// MissedMate returns the mate that the move let go. A move after which there is still
// a mate misses nothing that anybody would speak of.
func (m *Moment) MissedMate() (MissedMate, bool) {
	if !m.comparable() {
		return MissedMate{}, false
	}
	white := m.Place.Turn() == bitboard.White
	best, is := m.Before.Lines[0], m.After.Lines[0].Score
	in := best.Score.matesIn(white)
	view := is.From(white)
	if in == 0 || in > mateMost || best.First() == m.Move || view.Mate > 0 || view.Bound == AtLeast {
		return MissedMate{}, false
	}
	return MissedMate{Side: m.Place.Turn(), In: in, Best: best.Moves, Is: is}, true
}
