package bitboard

// Make plays a legal move. It checks nothing: another move leaves a position of no
// use. There is no way back but a copy of the position taken before.
func (p *Position) Make(m Move) {
	from, to := m.From(), m.To()
	kind, captured := p.typeOn(from), p.typeOn(to)
	us := p.turn
	passed := p.forgetPassed()
	if p.quiet < mostCounted {
		p.quiet++
	}
	p.move(NewPiece(us, kind), from, to)
	if captured != NoPieceType {
		p.hash ^= pieceKeys[NewPiece(us.Other(), captured)&15][to&63]
		p.quiet = 0
	}
	p.loseCastles(kind, from.bit()|to.bit())
	switch kind {
	case Pawn:
		p.quiet = 0
		p.pawnMoved(m, passed)
	case King:
		p.kingMoved(from, to)
	}
	if us == Black && p.number < mostCounted {
		p.number++
	}
	p.turn = us.Other()
	p.hash ^= blackKey
	p.lookForTakers()
}

// move takes a piece to another square and whatever stood there from the board,
// without the hash of that one.
func (p *Position) move(piece Piece, from, to Square) {
	stay := ^(from.bit() | to.bit())
	p.low &= stay
	p.mid &= stay
	p.high &= stay
	p.black &= stay
	p.put(piece, to)
	keys := &pieceKeys[piece&15]
	p.hash ^= keys[from&63] ^ keys[to&63]
}

// remove takes a piece from the board.
func (p *Position) remove(piece Piece, square Square) {
	stay := ^square.bit()
	p.low &= stay
	p.mid &= stay
	p.high &= stay
	p.black &= stay
	p.hash ^= pieceKeys[piece&15][square&63]
}

// loseCastles drops the rights that end with a move: those of a king that moves, those
// of a rook that moves or is captured.
func (p *Position) loseCastles(kind PieceType, touched Set) {
	if p.castles == 0 {
		return
	}
	if kind == King {
		touched |= homeRank(p.turn)
	}
	if lost := p.castles & touched; lost != 0 {
		p.castles &^= lost
		p.hash ^= castlesKey(lost)
	}
}

// pawnMoved does what only pawns do; passed is where one can be taken en passant.
func (p *Position) pawnMoved(m Move, passed Square) {
	from, to := m.From(), m.To()
	if promotion := m.Promotion(); promotion != NoPieceType {
		p.remove(NewPiece(p.turn, Pawn), to)
		p.put(NewPiece(p.turn, promotion), to)
		p.hash ^= pieceKeys[NewPiece(p.turn, promotion)&15][to&63]
		return
	}
	if to == passed {
		p.remove(NewPiece(p.turn.Other(), Pawn), behind(to))
	}
	if from^to == 16 {
		p.passed = behind(to)
	}
}

// forgetPassed ends the chance to capture en passant, and returns where it was.
func (p *Position) forgetPassed() Square {
	passed := p.passed
	if p.taken {
		p.hash ^= passantKeys[passed&7]
	}
	p.passed, p.taken = NoSquare, false
	return passed
}

// lookForTakers finds whether the pawn that has just gone two squares can be taken.
func (p *Position) lookForTakers() {
	if p.passed != NoSquare && p.canPass() {
		p.taken = true
		p.hash ^= passantKeys[p.passed&7]
	}
}

// behind returns the square a pawn comes from with a single step to this one, which is
// also where a pawn taken en passant there stands: the rank's number has its last bit
// flipped, between 3 and 4 and between 5 and 6.
func behind(to Square) Square { return to ^ 8 }

// kingMoved brings the rook over when the king has castled.
func (p *Position) kingMoved(from, to Square) {
	rook := NewPiece(p.turn, Rook)
	switch {
	case to == from+2:
		p.move(rook, from+3, from+1)
	case to+2 == from:
		p.move(rook, from-4, from-1)
	}
}
