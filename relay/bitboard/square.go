package bitboard

// Square is a square of the board, a1 = 0, b1 = 1 … h8 = 63, or NoSquare.
type Square uint8

// NoSquare is no square of the board.
const NoSquare Square = 64

// The squares.
const (
	A1, B1, C1, D1, E1, F1, G1, H1 Square = 8 * iota, 8*iota + 1, 8*iota + 2, 8*iota + 3, 8*iota + 4, 8*iota + 5, 8*iota + 6, 8*iota + 7
	A2, B2, C2, D2, E2, F2, G2, H2
	A3, B3, C3, D3, E3, F3, G3, H3
	A4, B4, C4, D4, E4, F4, G4, H4
	A5, B5, C5, D5, E5, F5, G5, H5
	A6, B6, C6, D6, E6, F6, G6, H6
	A7, B7, C7, D7, E7, F7, G7, H7
	A8, B8, C8, D8, E8, F8, G8, H8
)

// NewSquare returns the square of a file and a rank, both from 0 to 7.
func NewSquare(file, rank int) Square { return Square(rank<<3 | file) }

// File returns 0 for the a-file to 7 for the h-file.
func (s Square) File() int { return int(s & 7) }

// Rank returns 0 for White's back rank to 7 for Black's.
func (s Square) Rank() int { return int(s >> 3) }

// String returns the name of the square, such as "e4", or "-" for NoSquare.
func (s Square) String() string {
	if s >= NoSquare {
		return "-"
	}
	return string([]byte{'a' + byte(s&7), '1' + byte(s>>3)})
}

// ParseSquare returns the square of that name; ok is false when there is none.
func ParseSquare(name string) (s Square, ok bool) {
	if len(name) != 2 || !isFile(name[0]) || !isRank(name[1]) {
		return NoSquare, false
	}
	return squareOf(name[0], name[1]), true
}

func squareOf(file, rank byte) Square { return Square((rank-'1')<<3 | (file - 'a')) }

func isFile(c byte) bool { return c >= 'a' && c <= 'h' }

func isRank(c byte) bool { return c >= '1' && c <= '8' }

// bit returns the set of that square alone.
func (s Square) bit() Set { return 1 << (s & 63) }
