package bitboard

// Values of the pieces in centipawns, as beginners learn them (common practice, no
// source). A king has none: it is never exchanged.
const (
	PawnValue   = 100
	KnightValue = 300
	BishopValue = 300
	RookValue   = 500
	QueenValue  = 900
)

var values = [8]int{Pawn: PawnValue, Knight: KnightValue, Bishop: BishopValue, Rook: RookValue, Queen: QueenValue}

// Value returns the value of a kind of piece in centipawns, 0 for the king.
func Value(t PieceType) int { return values[t&7] }

// Exchange returns what a legal move wins or loses in centipawns, for the side that
// makes it, when both sides go on capturing on its square of arrival with the least
// valuable piece, for as long as it pays. Pieces behind others on a line join in as it
// opens. A king captures only what is no longer defended. A pawn that captures on the
// last rank becomes a queen.
//
// It is an estimate of that one square: pieces take part though they are pinned,
// checks and threats elsewhere do not count, nor does what a move leaves behind.
// Castling is worth 0.
func (p *Position) Exchange(m Move) int {
	var gains [64]int // what the side that made capture n has won by then, if it is the last
	e := p.enter(m, &gains[0])
	n := 0
	for standing := e.standing; e.next(); n++ {
		gains[n+1] = Value(standing) - gains[n]
		standing = e.standing
		if standing == Pawn && (rank1 | rank8).Has(e.square) {
			standing = Queen
			gains[n+1] += QueenValue - PawnValue
		}
	}
	// Backwards: each side captured only if that was better than to stop before.
	for ; n > 0; n-- {
		gains[n-1] = min(gains[n-1], -gains[n])
	}
	return gains[0]
}

// exchange is a series of captures on one square.
type exchange struct {
	p        *Position
	square   Square
	occupied Set       // by what has not captured yet
	side     Colour    // to capture
	standing PieceType // what made the last capture
}

// enter makes the first move and tells its gain.
func (p *Position) enter(m Move, gain *int) exchange {
	from, to := m.From(), m.To()
	e := exchange{
		p: p, square: to, occupied: p.Occupied() &^ from.bit(),
		side: p.turn.Other(), standing: p.typeOn(from),
	}
	*gain = Value(p.typeOn(to))
	if e.standing == Pawn && to == p.passed {
		*gain = PawnValue
		e.occupied &^= behind(to).bit()
	}
	if t := m.Promotion(); t != NoPieceType {
		*gain += Value(t) - PawnValue
		e.standing = t
	}
	return e
}

// next lets the least valuable piece of the side capture, if one can.
func (e *exchange) next() bool {
	p := e.p
	attackers := p.AttackersThrough(e.square, e.occupied) & e.occupied & p.Side(e.side)
	for t := Pawn; t <= King; t++ {
		s := attackers & p.Types(t)
		if s == 0 {
			continue
		}
		e.occupied &^= s & -s
		e.side = e.side.Other()
		e.standing = t
		return t != King || p.AttackersThrough(e.square, e.occupied)&e.occupied&p.Side(e.side) == 0
	}
	return false
}
