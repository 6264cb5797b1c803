package bitboard

// legal reports whether a piece of the side to move that can go there by the way it
// moves leaves its king unattacked. Castling has its own test, see canCastle.
func (p *Position) legal(from, to Square, kind PieceType) bool {
	us, them := p.turn, p.turn.Other()
	occupied, theirs := p.Occupied(), p.Side(them)
	if kind == King {
		return p.attackedBy(them, to, occupied&^from.bit(), theirs) == 0
	}
	gone := from.bit()
	if kind == Pawn && to == p.passed {
		gone |= behind(to).bit()
	}
	occupied = occupied&^gone | to.bit()
	theirs &= occupied &^ to.bit()
	return p.attackedBy(them, p.KingSquare(us), occupied, theirs) == 0
}

// canCastle reports whether the side to move may castle now with the rook of the
// h-file (short) or of the a-file.
func (p *Position) canCastle(short bool) bool {
	home := p.turn * 56
	king, rook, way, free := E1, H1, SetOf(F1, G1), SetOf(F1, G1)
	if !short {
		rook, way, free = A1, SetOf(C1, D1), SetOf(B1, C1, D1)
	}
	if !p.castles.Has(rook+Square(home)) || p.Occupied()&(free<<home) != 0 {
		return false
	}
	them := p.turn.Other()
	for way |= king.bit(); way != 0; way = way.Rest() {
		if p.attackedBy(them, way.First()+Square(home), p.Occupied(), p.Side(them)) != 0 {
			return false
		}
	}
	return true
}

// castling returns the king's move of castling for the side to move.
func (p *Position) castling(short bool) Move {
	king := E1 + Square(p.turn)*56
	if short {
		return NewMove(king, king+2, NoPieceType)
	}
	return NewMove(king, king-2, NoPieceType)
}

// IsLegal reports whether the side to move may play the move. It takes any 16 bits.
func (p *Position) IsLegal(m Move) bool {
	from, to := m.From(), m.To()
	kind := p.typeOn(from)
	if m>>15 != 0 || !p.Side(p.turn).Has(from) || !p.promotes(kind, to, m.Promotion()) {
		return false
	}
	if kind == King && (m == p.castling(true) || m == p.castling(false)) {
		return p.canCastle(m == p.castling(true))
	}
	return p.sources(kind, to).Has(from) && p.legal(from, to, kind)
}

// promotes reports whether a piece that arrives there becomes what it should: a pawn
// on the last rank a piece between knight and queen, anything else nothing.
func (p *Position) promotes(kind PieceType, to Square, promotion PieceType) bool {
	if kind == Pawn && homeRank(p.turn.Other()).Has(to) {
		return promotion >= Knight && promotion <= Queen
	}
	return promotion == NoPieceType
}

// sources returns the pieces of a kind with which the side to move reaches a square by
// the way they move: without castling, and whether or not their king is then attacked.
func (p *Position) sources(kind PieceType, to Square) Set {
	ours := p.Side(p.turn)
	if ours.Has(to) {
		return 0
	}
	switch kind {
	case Pawn:
		return p.pawnSources(to) & ours
	case Knight:
		return knightSteps[to&63] & p.Types(Knight) & ours
	case Bishop:
		return bishopAttacks(to, p.Occupied()) & p.Types(Bishop) & ours
	case Rook:
		return rookAttacks(to, p.Occupied()) & p.Types(Rook) & ours
	case Queen:
		return (bishopAttacks(to, p.Occupied()) | rookAttacks(to, p.Occupied())) & p.Types(Queen) & ours
	case King:
		return kingSteps[to&63] & p.Types(King) & ours
	}
	return 0
}

// pawnSources returns the pawns that reach a square, among them some of the other side.
func (p *Position) pawnSources(to Square) Set {
	pawns, occupied, target := p.Types(Pawn), p.Occupied(), to.bit()
	if occupied&target != 0 || to == p.passed {
		return pawnSteps[p.turn.Other()&1][to&63] & pawns
	}
	if p.turn == White {
		once := target >> 8
		twice := once &^ occupied >> 8 & RankSet(1)
		return (once | twice) & pawns
	}
	once := target << 8
	twice := once &^ occupied << 8 & RankSet(6)
	return (once | twice) & pawns
}
