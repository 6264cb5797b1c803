package bitboard

// Move is a move in 16 bits: bits 0 to 5 are the square of departure, 6 to 11 that of
// arrival, 12 to 14 the PieceType a pawn becomes. Bit 15 is free for those who store
// moves; nothing here sets or reads it. The zero Move is no move. Castling is the
// king's own move, from e1 to g1, and en passant the pawn's.
type Move uint16

// NoMove is the zero Move.
const NoMove Move = 0

// NewMove returns the move between two squares, with NoPieceType unless a pawn is
// promoted.
func NewMove(from, to Square, promotion PieceType) Move {
	return Move(from&63) | Move(to&63)<<6 | Move(promotion&7)<<12
}

// From returns the square of departure.
func (m Move) From() Square { return Square(m & 63) }

// To returns the square of arrival.
func (m Move) To() Square { return Square(m >> 6 & 63) }

// Promotion returns what a pawn becomes, NoPieceType for any other move.
func (m Move) Promotion() PieceType { return PieceType(m >> 12 & 7) }

// String returns the move in coordinates as UCI has them: "e2e4", "e7e8q", "0000" for
// none.
func (m Move) String() string {
	if m == NoMove {
		return "0000"
	}
	text := m.From().String() + m.To().String()
	if t := m.Promotion(); t != NoPieceType {
		text += string(t.Letter() | 0x20)
	}
	return text
}
