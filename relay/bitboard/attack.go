package bitboard

// Attacks returns the squares a piece on that square attacks when these squares are
// occupied, whether the piece there is its own or not. A pawn attacks where it may
// capture, not where it may go.
func Attacks(square Square, piece Piece, occupied Set) Set {
	switch piece.Type() {
	case Pawn:
		return pawnSteps[piece.Colour()&1][square&63]
	case Knight:
		return knightSteps[square&63]
	case Bishop:
		return bishopAttacks(square, occupied)
	case Rook:
		return rookAttacks(square, occupied)
	case Queen:
		return bishopAttacks(square, occupied) | rookAttacks(square, occupied)
	case King:
		return kingSteps[square&63]
	}
	return 0
}

// Attackers returns the pieces of both sides that attack the square, pinned ones
// among them.
func (p *Position) Attackers(square Square) Set { return p.AttackersThrough(square, p.Occupied()) }

// AttackersThrough is Attackers with lines open or closed as if these squares were
// occupied. Pieces that stand outside occupied are among the attackers still.
func (p *Position) AttackersThrough(square Square, occupied Set) Set {
	pawns := p.Types(Pawn)
	white := p.Side(White)
	return pawnSteps[Black][square&63]&pawns&white |
		pawnSteps[White][square&63]&pawns&p.black |
		knightSteps[square&63]&p.Types(Knight) |
		kingSteps[square&63]&p.Types(King) |
		p.sliders(square, occupied, p.low|p.high)
}

// sliders returns those of the pieces that slide onto the square.
func (p *Position) sliders(square Square, occupied, of Set) Set {
	var s Set
	if d := p.diagonals() & of; d&saltire[square&63] != 0 {
		s = bishopAttacks(square, occupied) & d
	}
	if r := p.straights() & of; r&cross[square&63] != 0 {
		s |= rookAttacks(square, occupied) & r
	}
	return s
}

// attackedBy returns those of the pieces, all of one side, that attack the square.
func (p *Position) attackedBy(side Colour, square Square, occupied, of Set) Set {
	s := square & 63
	steps := pawnSteps[side.Other()&1][s]&p.Types(Pawn) | knightSteps[s]&p.Types(Knight) | kingSteps[s]&p.Types(King)
	return steps&of | p.sliders(square, occupied, of)
}

// Checkers returns the pieces that give check to the side to move.
func (p *Position) Checkers() Set {
	them := p.turn.Other()
	return p.attackedBy(them, p.KingSquare(p.turn), p.Occupied(), p.Side(them))
}

// InCheck reports whether the side to move is in check.
func (p *Position) InCheck() bool { return p.Checkers() != 0 }

// Pinned returns the side's pieces that may not leave the line between their king and
// a slider of the other side.
func (p *Position) Pinned(c Colour) Set {
	king := p.KingSquare(c)
	ours, theirs := p.Side(c), p.Side(c.Other())
	pinners := theirs & (p.diagonals()&saltire[king&63] | p.straights()&cross[king&63])
	occupied := ours | theirs
	var pinned Set
	for ; pinners != 0; pinners = pinners.Rest() {
		if barrier := between(king, pinners.First()) & occupied; barrier.oneOrNone() {
			pinned |= barrier & ours
		}
	}
	return pinned
}

// PinLine returns the line a pinned piece of that side may move on, pinner and king
// included; all squares for a piece that is not pinned.
func (p *Position) PinLine(c Colour, square Square) Set {
	if !p.Pinned(c).Has(square) {
		return ^Set(0)
	}
	return lineThrough(p.KingSquare(c), square)
}
