package bitboard

// Colour is the side of a piece or of a player.
type Colour uint8

// The two sides.
const (
	White Colour = iota
	Black
)

// Other returns the other side.
func (c Colour) Other() Colour { return c ^ 1 }

// String returns "White" or "Black".
func (c Colour) String() string {
	if c == White {
		return "White"
	}
	return "Black"
}

// PieceType is a kind of piece, whichever its colour. Position relies on these values:
// each of its sets holds one bit of them.
type PieceType uint8

// The kinds of pieces; NoPieceType is an empty square.
const (
	NoPieceType PieceType = iota
	Pawn
	Knight
	Bishop
	Rook
	Queen
	King
)

const typeLetters = " PNBRQK"

// Letter returns the letter SAN has for the kind, 'P' for a pawn, a space for none.
func (t PieceType) Letter() byte { return typeLetters[min(int(t), len(typeLetters)-1)] }

// Piece is a piece of a colour: the PieceType in the low three bits, the Colour
// above. Its zero value is NoPiece.
type Piece uint8

// NoPiece stands on an empty square.
const NoPiece Piece = 0

// NewPiece returns the piece of that colour and kind.
func NewPiece(c Colour, t PieceType) Piece {
	if t == NoPieceType {
		return NoPiece
	}
	return Piece(c)<<3 | Piece(t)
}

// Type returns the kind of the piece.
func (p Piece) Type() PieceType { return PieceType(p & 7) }

// Colour returns the side of the piece; it says nothing of NoPiece.
func (p Piece) Colour() Colour { return Colour(p >> 3 & 1) }

// Letter returns the letter FEN has for the piece, a space for none.
func (p Piece) Letter() byte {
	letter := p.Type().Letter()
	if p.Colour() == Black && letter != ' ' {
		letter |= 0x20
	}
	return letter
}

// String returns the letter of the piece as FEN has it.
func (p Piece) String() string { return string(p.Letter()) }
