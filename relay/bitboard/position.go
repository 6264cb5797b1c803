package bitboard

import "math"

// Position is a position with what belongs to it by the rules: side to move, rights to
// castle, en passant, and the two counters. It is a value: a copy is a position of its
// own. The zero Position has no kings and is of no use; take Start or ParseFEN.
type Position struct {
	low, mid, high Set // the bits of the PieceType on each square
	black          Set // where Black's pieces stand
	castles        Set // rooks that may still castle
	hash           uint64
	quiet          uint16 // half-moves since a capture or a pawn move
	number         uint16 // of the move, counted by White's and Black's together
	passed         Square // behind a pawn that has just gone two squares, or NoSquare
	taken          bool   // it can be taken en passant, legally
	turn           Colour
}

// mostCounted is where the counters of a position stop.
const mostCounted = math.MaxUint16

// start is filled when the program starts, after the keys of the hash.
var start Position

// Start returns the position a game begins with.
func Start() Position { return start }

// Turn returns the side to move.
func (p *Position) Turn() Colour { return p.turn }

// Hash returns the position's hash: equal for positions that are the same by the Laws
// (article 9.2.3), so that a pawn that has gone two squares matters only while it can
// be taken en passant. The counters are not part of it.
func (p *Position) Hash() uint64 { return p.hash }

// HalfmoveClock returns the half-moves since the last capture or pawn move.
func (p *Position) HalfmoveClock() int { return int(p.quiet) }

// MoveNumber returns the number of the move to be made, 1 at the start.
func (p *Position) MoveNumber() int { return int(p.number) }

// Ply returns how many half-moves after the beginning of move 1 the position stands.
func (p *Position) Ply() int { return 2*(int(p.number)-1) + int(p.turn) }

// EnPassant returns the square a pawn has just passed, and whether a pawn can take it
// there legally. The square is NoSquare if the last move was no double step.
func (p *Position) EnPassant() (square Square, legal bool) { return p.passed, p.taken }

// Castles returns the rooks with which the side may still castle, blocked or not.
func (p *Position) Castles(c Colour) Set { return p.castles & homeRank(c) }

// Piece returns what stands on the square.
func (p *Position) Piece(square Square) Piece {
	return NewPiece(Colour(p.black>>(square&63)&1), p.typeOn(square))
}

func (p *Position) typeOn(square Square) PieceType {
	s := square & 63
	return PieceType(p.low>>s&1 | p.mid>>s&1<<1 | p.high>>s&1<<2)
}

// Occupied returns all squares with a piece.
func (p *Position) Occupied() Set { return p.low | p.mid | p.high }

// Side returns the squares of one side's pieces.
func (p *Position) Side(c Colour) Set {
	if c == White {
		return p.Occupied() &^ p.black
	}
	return p.black
}

// Types returns the squares of all pieces of a kind, of either side.
func (p *Position) Types(t PieceType) Set {
	switch t {
	case Pawn:
		return p.low &^ (p.mid | p.high)
	case Knight:
		return p.mid &^ (p.low | p.high)
	case Bishop:
		return p.low & p.mid
	case Rook:
		return p.high &^ (p.low | p.mid)
	case Queen:
		return p.low & p.high
	case King:
		return p.mid & p.high
	}
	return ^p.Occupied()
}

// Pieces returns the squares of all pieces of a side and kind.
func (p *Position) Pieces(c Colour, t PieceType) Set { return p.Types(t) & p.Side(c) }

// KingSquare returns where the side's king stands.
func (p *Position) KingSquare(c Colour) Square { return (p.mid & p.high & p.Side(c)).First() }

// diagonals are the pieces that slide along diagonals, straights those that slide
// along ranks and files; queens are both.
func (p *Position) diagonals() Set { return p.low & (p.mid | p.high) }
func (p *Position) straights() Set { return p.high &^ p.mid }

// put places a piece on an empty square, without its hash.
func (p *Position) put(piece Piece, square Square) {
	s := square & 63
	p.low |= Set(piece&1) << s
	p.mid |= Set(piece>>1&1) << s
	p.high |= Set(piece>>2&1) << s
	p.black |= Set(piece>>3&1) << s
}

func homeRank(c Colour) Set { return rank1 << (56 * (c & 1)) }
