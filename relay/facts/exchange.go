package facts

import "clocktell/relay/bitboard"

// exchange is a series of captures on one square. The men of p outside occupied have
// captured already; the last of them stands on the square.
type exchange struct {
	p        *Position
	on       Square
	standing PieceType
	king     [2]Square
	occupied Set
	ignored  Set // men whose check is left out of account
}

// newExchange prepares for exchanges in a position, with whoever begins. If the king of
// the side that is not to move is attacked, which no game allows but a passed move, that
// check does not count.
func newExchange(p *Position) exchange {
	e := exchange{p: p, occupied: p.Occupied()}
	for c := range both {
		e.king[c] = p.KingSquare(c)
	}
	mover := p.Turn()
	e.ignored = p.Attackers(e.king[mover.Other()]) & p.Side(mover)
	return e
}

// capture returns the best that the side can win by capturing on the square, as the doc
// of the package has it, and with what it begins: 0 and NoSquare if nothing is won.
func (e exchange) capture(side Colour, on Square) (won int, with Square) {
	e.on, e.standing = on, e.p.Piece(on).Type()
	return e.best(side, 0, kingValue)
}

// outcome returns what a legal move captures less what the other side then wins on the
// square of arrival. Castling has the outcome 0.
func (e exchange) outcome(m Move) int {
	kind := e.p.Piece(m.From()).Type()
	side := e.p.Turn()
	gain := e.enter(m, kind, side)
	if e.attackers(side.Other()) == 0 {
		return gain
	}
	lost, _ := e.best(side.Other(), 0, kingValue)
	return gain - lost
}

// enter makes the first move and tells its gain.
func (e *exchange) enter(m Move, kind PieceType, side Colour) int {
	e.on = m.To()
	gain := bitboard.Value(e.p.Piece(e.on).Type())
	e.occupied = e.occupied&^bitOf(m.From()) | bitOf(e.on)
	e.standing = kind
	passed, taken := e.p.EnPassant()
	switch {
	case kind == bitboard.King:
		e.king[side] = e.on
	case kind == bitboard.Pawn && taken && e.on == passed && m.From().File() != e.on.File():
		gain = bitboard.PawnValue
		e.occupied &^= bitOf(e.on ^ 8) // the pawn that has passed
	case m.Promotion() != bitboard.NoPieceType:
		e.standing = m.Promotion()
		gain += bitboard.Value(e.standing) - bitboard.PawnValue
	}
	return gain
}

// attackers are the side's men that can capture on the square next, legally or not.
func (e *exchange) attackers(side Colour) Set {
	return e.p.AttackersThrough(e.on, e.occupied) & e.occupied & e.p.Side(side) &^ bitOf(e.on)
}

// best returns the most the side can win from here on, and with which capture. The
// result is exact between alpha and beta; below and above it is only a bound.
func (e exchange) best(side Colour, alpha, beta int) (won int, with Square) {
	with = bitboard.NoSquare
	attackers := e.attackers(side)
	if attackers == 0 {
		return 0, with
	}
	alpha = max(alpha, 0)
	for t := bitboard.Pawn; t <= bitboard.King; t++ {
		for s := flipped(side, attackers&e.p.Types(t)); s != 0; s = s.Rest() {
			next, from := e, flippedSquare(side, s.First())
			gain := next.take(from, t, side)
			if gain <= alpha || !next.legal(side) {
				continue
			}
			lost, _ := next.best(side.Other(), gain-beta, gain-alpha)
			if gain-lost > max(won, alpha) {
				won, with = gain-lost, from
				alpha = won
			}
			if won >= beta {
				return won, with
			}
		}
	}
	return won, with
}

// take captures with a man and tells the gain.
func (e *exchange) take(from Square, t PieceType, side Colour) int {
	gain := bitboard.Value(e.standing)
	e.occupied &^= bitOf(from)
	e.standing = t
	switch {
	case t == bitboard.King:
		e.king[side] = e.on
	case t == bitboard.Pawn && (rank1|rank1<<56)&bitOf(e.on) != 0:
		e.standing = bitboard.Queen
		gain += bitboard.QueenValue - bitboard.PawnValue
	}
	return gain
}

// legal reports whether the capture just made leaves the side's king unattacked.
func (e *exchange) legal(side Colour) bool {
	king := e.king[side]
	enemies := e.p.Side(side.Other()) & e.occupied &^ bitOf(e.on) &^ e.ignored
	return e.p.AttackersThrough(king, e.occupied)&enemies == 0
}
