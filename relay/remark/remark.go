package remark

import (
	"strings"

	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// Short names for what every rule speaks of.
type (
	Square   = bitboard.Square
	Set      = bitboard.Set
	Colour   = bitboard.Colour
	Piece    = bitboard.Piece
	Move     = bitboard.Move
	Position = bitboard.Position
)

// MostSquares is how many squares a remark speaks of; any more are left off.
const MostSquares = 5

// Remark is one thing to say, or a finding that may become one.
type Remark struct {
	Rule   Rule
	Side   Colour // whose man, chance or weakness it is; White for rules about neither side
	Wing   facts.Wing
	Kind   bitboard.PieceType // of piece, for EndingBegun
	Pairs  uint8              // of them on each side
	count  uint8
	Move   Move  // on offer or threatened, NoMove for most rules
	Amount int16 // centipawns, men or moves, as the rule says
	Since  int16 // the ply it has been true since, the first of the game being 1
	Said   int16 // the ply it was found worth saying; 0: it was not
	on     [MostSquares]Square
	men    [MostSquares]Piece
}

// Squares returns the squares spoken of, in the order of the rule. They belong to r.
func (r *Remark) Squares() []Square { return r.on[:r.count] }

// Man returns what stands on the square at index i, NoPiece for an empty one.
func (r *Remark) Man(i int) Piece { return r.men[i] }

// Priority says how soon the remark should be said.
func (r *Remark) Priority() Priority { return rules[r.Rule].priority }

// Life returns for how many plies after it was said the remark stands at most.
func (r *Remark) Life() int { return rules[r.Rule].life }

// Key is the same as long as the same is said of the same men on the same squares.
func (r *Remark) Key() string {
	var b strings.Builder
	b.WriteString(strings.ReplaceAll(r.Rule.String(), " ", ""))
	b.WriteString("-" + strings.ToLower(r.Side.String()))
	if r.Wing != facts.NoWing {
		b.WriteByte('-')
		b.WriteByte("qk"[r.Wing-facts.QueenSide])
	}
	if r.Rule == EndingBegun {
		b.WriteString(strings.TrimSpace("-" + strings.Repeat(string(r.Kind.Letter()), int(r.Pairs))))
	}
	if r.Move != bitboard.NoMove {
		b.WriteString("-" + r.Move.String())
	}
	for i, square := range r.Squares() {
		b.WriteString("-" + strings.TrimSpace(r.men[i].String()) + square.String())
	}
	return b.String()
}

// String returns the remark for logs and tests.
func (r Remark) String() string { return r.Key() }

// says reports whether two findings say the same. Amounts that change with every move
// and are not part of the sentence do not count.
func (r *Remark) says(other *Remark) bool {
	a, b := *r, *other
	a.Since, a.Said, b.Since, b.Said = 0, 0, 0, 0
	if rules[r.Rule].anyAmount {
		a.Amount, b.Amount = 0, 0
	}
	return a == b
}

// subject is the man the remark is about, NoSquare if it is about none.
func (r *Remark) subject() Square {
	if r.count == 0 {
		return bitboard.NoSquare
	}
	return r.on[0]
}

// ending numbers the kinds of ending of EndingBegun, 0 for other rules.
func (r *Remark) ending() uint8 {
	if r.Rule != EndingBegun {
		return 0
	}
	return 1 + uint8(r.Kind)
}

// Of returns the remark speaking of these men, for those who make remarks of their own, such as
// tests of sentences. Squares beyond MostSquares are left off.
func (r Remark) Of(squares []Square, men []Piece) Remark {
	r.count = 0
	for i := range min(len(squares), MostSquares) {
		r.on[i], r.men[i] = squares[i], men[i]
		r.count++
	}
	return r
}
