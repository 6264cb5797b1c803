package bitboard

// MaxMoves is the most legal moves that a position reached by play is known to have
// (the figure is common knowledge, from memory). Moves needs no more room for one.
const MaxMoves = 218

// Moves appends the legal moves to buf and returns it, in no particular order. It
// allocates nothing while buf has the room.
func (p *Position) Moves(buf []Move) []Move {
	us, them := p.turn, p.turn.Other()
	g := generation{
		p: p, moves: buf, king: p.KingSquare(us), ours: p.Side(us), occupied: p.Occupied(),
	}
	checkers := p.Checkers()
	g.kingMoves(them)
	if !checkers.oneOrNone() {
		return g.moves // a double check is only met by the king
	}
	g.targets = ^g.ours
	if checkers != 0 {
		g.targets = checkers | between(g.king, checkers.First())
	}
	g.pinned = p.Pinned(us)
	g.pieceMoves()
	g.pawnMoves()
	if checkers == 0 {
		g.castlings()
	}
	return g.moves
}

// generation is what the making of one list of moves goes by.
type generation struct {
	p              *Position
	moves          []Move
	king           Square
	ours, occupied Set
	targets        Set // where anything but the king may go, for all the checks there are
	pinned         Set
}

func (g *generation) add(from Square, to Set) {
	for ; to != 0; to = to.Rest() {
		g.moves = append(g.moves, NewMove(from, to.First(), NoPieceType))
	}
}

func (g *generation) kingMoves(them Colour) {
	theirs := g.p.Side(them)
	open := g.occupied &^ g.king.bit()
	for to := kingSteps[g.king&63] &^ g.ours; to != 0; to = to.Rest() {
		if g.p.attackedBy(them, to.First(), open, theirs) == 0 {
			g.add(g.king, to&-to)
		}
	}
}

// allowed cuts a piece's squares down to those where its king stays safe.
func (g *generation) allowed(from Square, to Set) Set {
	to &= g.targets
	if g.pinned.Has(from) {
		to &= lineThrough(g.king, from)
	}
	return to
}

func (g *generation) pieceMoves() {
	p := g.p
	for s := p.Types(Knight) & g.ours &^ g.pinned; s != 0; s = s.Rest() {
		g.add(s.First(), knightSteps[s.First()&63]&g.targets)
	}
	for s := p.diagonals() & g.ours; s != 0; s = s.Rest() {
		from := s.First()
		g.add(from, g.allowed(from, bishopAttacks(from, g.occupied)))
	}
	for s := p.straights() & g.ours; s != 0; s = s.Rest() {
		from := s.First()
		g.add(from, g.allowed(from, rookAttacks(from, g.occupied)))
	}
}

func (g *generation) pawnMoves() {
	p := g.p
	last := homeRank(p.turn.Other())
	theirs := g.occupied &^ g.ours
	for s := p.Types(Pawn) & g.ours; s != 0; s = s.Rest() {
		from := s.First()
		to := pawnSteps[p.turn&1][from&63]&theirs | p.pawnAhead(from, g.occupied)
		to = g.allowed(from, to)
		if to&last != 0 {
			g.promotions(from, to)
		} else {
			g.add(from, to)
		}
	}
	if p.taken {
		g.enPassant()
	}
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

func (g *generation) promotions(from Square, to Set) {
	for ; to != 0; to = to.Rest() {
		for t := Queen; t >= Knight; t-- {
			g.moves = append(g.moves, NewMove(from, to.First(), t))
		}
	}
}

func (g *generation) enPassant() {
	p := g.p
	for s := p.sources(Pawn, p.passed); s != 0; s = s.Rest() {
		if p.legal(s.First(), p.passed, Pawn) {
			g.add(s.First(), p.passed.bit())
		}
	}
}

func (g *generation) castlings() {
	for _, short := range []bool{true, false} {
		if g.p.canCastle(short) {
			g.moves = append(g.moves, g.p.castling(short))
		}
	}
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
