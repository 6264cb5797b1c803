package bitboard

// Square is a square of the board, a1 = 0, b1 = 1 … h8 = 63, or NoSquare.
type Square uint8

// NoSquare is no square of the board.
const NoSquare Square = 64

// The squares.
const (
	A1 Square = iota
	B1
	C1
	D1
	E1
	F1
	G1
	H1
)

// The squares of the back rank of Black.
const (
	A8 Square = iota + 56
	B8
	C8
	D8
	E8
	F8
	G8
	H8
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
