package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// onlyFrom is the move from which a single legal move is worth a word.
const onlyFrom = 10

// onlyMove finds a check that leaves one move, other than to take what gives it.
func onlyMove(sc *scene, c Colour) {
	enemy := c.Other()
	if c != sc.turn || !sc.inCheck || sc.number() < onlyFrom || sc.queens[enemy] == 0 && sc.pieces[enemy] < 2 {
		return
	}
	var room [bitboard.MaxMoves]Move
	moves := sc.p.Moves(room[:0])
	if len(moves) != 1 || sc.p.Checkers().Has(moves[0].To()) {
		return
	}
	sc.add(OnlyMove, c, sc.p.KingSquare(c), first(c, sc.p.Checkers())).Move = moves[0]
}

// pieceOffered finds a piece that has moved to where it can be taken.
func pieceOffered(sc *scene, f *facts.Fact) {
	on := f.Subject()
	if f.Side == sc.turn || sc.move == bitboard.NoMove || sc.move.To() != on || f.Pieces()[0].Type() == bitboard.Pawn {
		return
	}
	if sc.earlier.hung.Has(sc.move.From()) || sc.before.InCheck() || sc.move.Promotion() != bitboard.NoPieceType {
		return
	}
	guarded := sc.p.Attackers(on)&sc.p.Side(f.Side) != 0
	if !guarded && !sc.captured && !sc.inCheck || sc.has(facts.MateOffer, sc.turn) {
		return
	}
	m, won := sc.bestOn(on)
	won -= taken(sc.before, sc.move)
	if won >= worthSaying && !sc.foundOf(PieceHangs, on) {
		r := sc.add(PieceOffered, f.Side, on, m.From())
		r.Amount, r.Move = int16(won), m
	}
}

// bestOn is the legal capture on a square that wins the most by the exchange there, and what that is.
func (sc *scene) bestOn(on Square) (Move, int) {
	best, most := bitboard.NoMove, 0
	for a := flipped(sc.turn, sc.p.Attackers(on)&sc.p.Side(sc.turn)); a != 0; a = a.Rest() {
		m := capture(sc.p, homeward(sc.turn, a.First()), on)
		if won := sc.p.Exchange(m); won > most && sc.p.IsLegal(m) {
			best, most = m, won
		}
	}
	return best, most
}

// Bits of the counts of Remark.Pieces, for each of three kinds and two sides.
const (
	countBits = 2
	kindsLeft = 3
	mostLeft  = 3 // pieces of a side in an ending without queens
)

// queensGone finds an ending that has no name of its own.
func queensGone(sc *scene, c Colour) {
	few := min(sc.pieces[0], sc.pieces[1]) > 0 && max(sc.pieces[0], sc.pieces[1]) <= mostLeft
	if c == bitboard.Black || sc.queens[0]|sc.queens[1] != 0 || !few || sc.pieces[0]+sc.pieces[1] < 3 {
		return
	}
	amount := 0
	for side := range both {
		for t := bitboard.Knight; t <= bitboard.Rook; t++ {
			at := int(side)*kindsLeft + int(t-bitboard.Knight)
			amount |= sc.p.Pieces(side, t).Count() << (countBits * at)
		}
	}
	for i := range sc.found {
		if r := sc.found[i].Rule; r == EndingBegun {
			return
		}
	}
	sc.add(QueensGone, c).Amount = int16(amount)
}

// Pieces returns how many pieces of a kind, knight to rook, a side has by a remark of QueensGone.
func (r *Remark) Pieces(c Colour, t bitboard.PieceType) int {
	at := int(c)*kindsLeft + int(t-bitboard.Knight)
	return int(r.Amount) >> (countBits * at) & (1<<countBits - 1)
}
