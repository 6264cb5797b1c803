package facts

import (
	"strconv"
	"strings"

	"clocktell/relay/bitboard"
)

// Short names for what every definition speaks of.
type (
	Square    = bitboard.Square
	Set       = bitboard.Set
	Colour    = bitboard.Colour
	Piece     = bitboard.Piece
	PieceType = bitboard.PieceType
	Move      = bitboard.Move
	Position  = bitboard.Position
)

// MostSquares is how many squares a fact can point at; any more are left off.
const MostSquares = 8

// Wing is half of the board.
type Wing uint8

// The wings: files a to d, and files e to h.
const (
	NoWing Wing = iota
	QueenSide
	KingSide
)

var wingNames = [...]string{"", "queen's side", "king's side"}

// String returns "queen's side", "king's side" or nothing.
func (w Wing) String() string { return wingNames[min(int(w), len(wingNames)-1)] }

// Fact is one fact of a position. Facts are equal if they say the same, so they can be
// compared with ==.
type Fact struct {
	Kind   Kind
	Side   Colour // whose man, file, threat or right it is; White for neutral kinds
	Wing   Wing   // for those kinds that have one
	count  uint8
	Move   Move // the move that a fact is about, NoMove for most kinds
	Amount int  // centipawns, men, moves, as the kind says
	on     [MostSquares]Square
	men    [MostSquares]Piece
}

// Facts are the facts of one position, in the order of their kinds' files: material,
// pieces, tactics, king, pawns, draws.
type Facts []Fact

// Subject returns the square the fact is about, NoSquare if it is about none.
func (f *Fact) Subject() Square {
	if f.count == 0 {
		return bitboard.NoSquare
	}
	return f.on[0]
}

// Squares returns the squares to point at, the subject first. They belong to the fact.
func (f *Fact) Squares() []Square { return f.on[:f.count] }

// Pieces returns what stands on each of Squares, NoPiece on an empty one.
func (f *Fact) Pieces() []Piece { return f.men[:f.count] }

// Set returns the squares as a set.
func (f *Fact) Set() Set { return bitboard.SetOf(f.Squares()...) }

// String returns the fact for logs and tests, as "hanging White Nf3 bg4 300".
func (f Fact) String() string {
	words := []string{f.Kind.String()}
	if !f.Kind.Neutral() {
		words = append(words, f.Side.String())
	}
	if f.Wing != NoWing {
		words = append(words, f.Wing.String())
	}
	if f.Move != bitboard.NoMove {
		words = append(words, f.Move.String())
	}
	for i, square := range f.Squares() {
		words = append(words, strings.TrimSpace(f.men[i].String()+square.String()))
	}
	if f.Amount != 0 {
		words = append(words, strconv.Itoa(f.Amount))
	}
	return strings.Join(words, " ")
}

// Of returns those of a kind.
func (f Facts) Of(kind Kind) Facts {
	var found Facts
	for _, fact := range f {
		if fact.Kind == kind {
			found = append(found, fact)
		}
	}
	return found
}

// Has reports whether there is a fact of that kind about that side.
func (f Facts) Has(kind Kind, side Colour) bool {
	for i := range f {
		if f[i].Kind == kind && f[i].Side == side {
			return true
		}
	}
	return false
}
