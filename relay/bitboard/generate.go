package bitboard

// MaxMoves is the most legal moves that a position reached by play is known to have
// (the figure is common knowledge, from memory). Moves needs no more room for one.
const MaxMoves = 218

// Moves appends the legal moves to buf and returns it, in no particular order. It
// allocates nothing while buf has the room.
func (p *Position) Moves(buf []Move) []Move {
	us, them := p.turn, p.turn.Other()
	g := generation{
		p: p, king: p.KingSquare(us), ours: p.Side(us), occupied: p.Occupied(),
	}
	checkers := p.Checkers()
	buf = g.kingMoves(buf, them)
	if !checkers.oneOrNone() {
		return buf // a double check is only met by the king
	}
	g.targets = ^g.ours
	if checkers != 0 {
		g.targets = checkers | between(g.king, checkers.First())
	}
	g.pinned = p.Pinned(us)
	buf = g.pawnMoves(g.pieceMoves(buf))
	if checkers == 0 {
		buf = g.castlings(buf)
	}
	return buf
}

// generation is what the making of one list of moves goes by.
type generation struct {
	p              *Position
	king           Square
	ours, occupied Set
	targets        Set // where anything but the king may go, for all the checks there are
	pinned         Set
}

func appendMoves(buf []Move, from Square, to Set) []Move {
	for ; to != 0; to = to.Rest() {
		buf = append(buf, NewMove(from, to.First(), NoPieceType))
	}
	return buf
}

func (g *generation) kingMoves(buf []Move, them Colour) []Move {
	theirs := g.p.Side(them)
	open := g.occupied &^ g.king.bit()
	for to := kingSteps[g.king&63] &^ g.ours; to != 0; to = to.Rest() {
		if g.p.attackedBy(them, to.First(), open, theirs) == 0 {
			buf = appendMoves(buf, g.king, to&-to)
		}
	}
	return buf
}

// allowed cuts a piece's squares down to those where its king stays safe.
func (g *generation) allowed(from Square, to Set) Set {
	to &= g.targets
	if g.pinned.Has(from) {
		to &= lineThrough(g.king, from)
	}
	return to
}

func (g *generation) pieceMoves(buf []Move) []Move {
	p := g.p
	for s := p.Types(Knight) & g.ours &^ g.pinned; s != 0; s = s.Rest() {
		buf = appendMoves(buf, s.First(), knightSteps[s.First()&63]&g.targets)
	}
	for s := p.diagonals() & g.ours; s != 0; s = s.Rest() {
		from := s.First()
		buf = appendMoves(buf, from, g.allowed(from, bishopAttacks(from, g.occupied)))
	}
	for s := p.straights() & g.ours; s != 0; s = s.Rest() {
		from := s.First()
		buf = appendMoves(buf, from, g.allowed(from, rookAttacks(from, g.occupied)))
	}
	return buf
}

func (g *generation) pawnMoves(buf []Move) []Move {
	p := g.p
	last := homeRank(p.turn.Other())
	theirs := g.occupied &^ g.ours
	for s := p.Types(Pawn) & g.ours; s != 0; s = s.Rest() {
		from := s.First()
		to := pawnSteps[p.turn&1][from&63]&theirs | p.pawnAhead(from, g.occupied)
		to = g.allowed(from, to)
		if to&last != 0 {
			buf = appendPromotions(buf, from, to)
		} else {
			buf = appendMoves(buf, from, to)
		}
	}
	if p.taken {
		buf = g.enPassant(buf)
	}
	return buf
}

// pawnAhead returns where a pawn of the side to move may go without a capture.
func (p *Position) pawnAhead(from Square, occupied Set) Set {
	if p.turn == White {
		once := from.bit() << 8 &^ occupied
		return once | once&RankSet(2)<<8&^occupied
	}
	once := from.bit() >> 8 &^ occupied
	return once | once&RankSet(5)>>8&^occupied
}

func appendPromotions(buf []Move, from Square, to Set) []Move {
	for ; to != 0; to = to.Rest() {
		for t := Queen; t >= Knight; t-- {
			buf = append(buf, NewMove(from, to.First(), t))
		}
	}
	return buf
}

func (g *generation) enPassant(buf []Move) []Move {
	p := g.p
	for s := p.sources(Pawn, p.passed); s != 0; s = s.Rest() {
		if p.legal(s.First(), p.passed, Pawn) {
			buf = appendMoves(buf, s.First(), p.passed.bit())
		}
	}
	return buf
}

func (g *generation) castlings(buf []Move) []Move {
	for _, short := range []bool{true, false} {
		if g.p.canCastle(short) {
			buf = append(buf, g.p.castling(short))
		}
	}
	return buf
}

// HasMove reports whether the side to move has a legal move.
func (p *Position) HasMove() bool {
	var room [MaxMoves]Move
	return len(p.Moves(room[:0])) > 0
}

// IsMate reports whether the side to move is checkmated.
func (p *Position) IsMate() bool { return p.InCheck() && !p.HasMove() }

// IsStalemate reports whether the side to move has no move and is not in check.
func (p *Position) IsStalemate() bool { return !p.InCheck() && !p.HasMove() }
