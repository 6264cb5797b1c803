package facts

import "clocktell/relay/bitboard"

// Game follows the moves of a game for the facts that a position alone does not tell. The
// zero Game is of no use; take NewGame. It is a value: a copy goes its own way.
type Game struct {
	p       Position
	plies   int
	earlier []uint64 // hashes since the last capture or pawn move
	castles []Fact   // Castled and CastlingLost, the oldest first
}

// NewGame begins a game in that position.
func NewGame(start Position) Game { return Game{p: start} }

// Position returns the position as it is now.
func (g *Game) Position() Position { return g.p }

// Facts returns the facts of the position as it is now, with those of the game.
func (g *Game) Facts() Facts {
	list := AppendOf(make(Facts, 0, usual), &g.p, g.earlier...)
	return append(list, g.castles...)
}

// Play plays a legal move.
func (g *Game) Play(m Move) {
	before := g.p
	g.p.Make(m)
	g.plies++
	if g.p.HalfmoveClock() == 0 {
		g.earlier = nil
	} else {
		// Never into the room of a copy of this game.
		n := len(g.earlier)
		g.earlier = append(g.earlier[:n:n], before.Hash())
	}
	for c := range both {
		if lost := before.Castles(c) &^ g.p.Castles(c); lost != 0 {
			g.noteCastles(&before, m, c, lost)
		}
	}
}

// noteCastles writes down how the side lost its right to castle with these rooks. A side
// that castles has lost nothing.
func (g *Game) noteCastles(before *Position, m Move, c Colour, lost Set) {
	mover := before.Piece(m.From())
	castled := mover == bitboard.NewPiece(c, bitboard.King) && (m.To() == m.From()+2 || m.To()+2 == m.From())
	n := len(g.castles)
	g.castles = g.castles[:n:n]
	if castled {
		g.castles = append(g.castles, castledFact(m, c, g.plies))
		return
	}
	for s := lost; s != 0; s = s.Rest() {
		f := Fact{Kind: CastlingLost, Side: c, Wing: wingOf(s.First()), Move: m, Amount: g.plies, count: 2}
		f.on[0], f.on[1], f.men[1] = m.From(), m.To(), mover
		g.castles = append(g.castles, f)
	}
}

func castledFact(m Move, c Colour, ply int) Fact {
	f := Fact{Kind: Castled, Side: c, Wing: wingOf(m.To()), Move: m, Amount: ply, count: 2}
	f.on[0], f.on[1] = m.To(), (m.From()+m.To())/2
	f.men[0], f.men[1] = bitboard.NewPiece(c, bitboard.King), bitboard.NewPiece(c, bitboard.Rook)
	return f
}

func wingOf(s Square) Wing {
	if s.File() < 4 {
		return QueenSide
	}
	return KingSide
}
