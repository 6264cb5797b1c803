package facts

import "clocktell/relay/bitboard"

// tally is how many more of each kind of man a side has.
type tally struct{ queens, rooks, minors, pawns int }

func (l *look) material() {
	ahead := 0
	var counts [2]tally
	for c := range both {
		t := tally{
			queens: l.p.Pieces(c, bitboard.Queen).Count(),
			rooks:  l.p.Pieces(c, bitboard.Rook).Count(),
			minors: l.minors(c).Count(),
			pawns:  l.pawns[c].Count(),
		}
		counts[c] = t
		sign := 1 - 2*int(c)
		ahead += sign * (t.queens*bitboard.QueenValue + t.rooks*bitboard.RookValue +
			t.minors*bitboard.KnightValue + t.pawns*bitboard.PawnValue)
	}
	switch {
	case ahead > 0:
		l.add(Material, bitboard.White).Amount = ahead
	case ahead < 0:
		l.add(Material, bitboard.Black).Amount = -ahead
	}
	for c := range both {
		l.imbalance(c, counts[c], counts[c.Other()])
		l.bishops(c)
	}
	l.oppositeBishops()
}

func (l *look) minors(c Colour) Set {
	return l.p.Pieces(c, bitboard.Knight) | l.p.Pieces(c, bitboard.Bishop)
}

// imbalances by how many more queens, rooks and minors a side has.
var imbalances = map[[3]int]Kind{
	{0, 0, 1}: PieceUp, {0, 1, -1}: ExchangeUp, {0, -1, 2}: PiecesForRook, {0, 1, 0}: RookUp,
	{1, 0, 0}: QueenUp, {1, -1, 0}: QueenForRook, {1, -2, 0}: QueenForRooks,
	{1, -1, -1}: QueenForRookAndPiece, {1, 0, -3}: QueenForPieces,
}

func (l *look) imbalance(c Colour, own, other tally) {
	more := [3]int{own.queens - other.queens, own.rooks - other.rooks, own.minors - other.minors}
	pawns := own.pawns - other.pawns
	kind, named := imbalances[more]
	switch {
	case more == [3]int{} && pawns > 0:
		l.add(PawnsUp, c).Amount = pawns
	case kind == PieceUp && pawns < 0:
		l.add(PieceForPawns, c).Amount = -pawns
		l.pointAll(c, l.minors(c))
	case named:
		l.add(kind, c).Amount = pawns
		l.pointAll(c, l.ofTally(c, more, 1))
		l.pointAll(c, l.ofTally(c.Other(), more, -1))
	}
}

// ofTally returns the side's men of the kinds of which there are more, or with sign -1
// fewer.
func (l *look) ofTally(c Colour, more [3]int, sign int) Set {
	var s Set
	for i, men := range []Set{l.p.Pieces(c, bitboard.Queen), l.p.Pieces(c, bitboard.Rook), l.minors(c)} {
		if sign*more[i] > 0 {
			s |= men
		}
	}
	return s
}

func (l *look) bishops(c Colour) {
	own, other := l.p.Pieces(c, bitboard.Bishop), l.p.Pieces(c.Other(), bitboard.Bishop)
	if isPair(own) && !isPair(other) {
		l.add(BishopPair, c)
		l.pointAll(c, own)
	}
	if alone(l.minors(c)) && own != 0 && alone(l.minors(c.Other())) && other == 0 {
		l.add(BishopAgainstKnight, c)
		l.point(own.First(), l.minors(c.Other()).First())
	}
}

func isPair(bishops Set) bool { return bishops&lightSquares != 0 && bishops&^lightSquares != 0 }

func (l *look) oppositeBishops() {
	white, black := l.p.Pieces(bitboard.White, bitboard.Bishop), l.p.Pieces(bitboard.Black, bitboard.Bishop)
	if !alone(white) || !alone(black) || !isPair(white|black) {
		return
	}
	f := l.add(OppositeBishops, bitboard.White)
	if l.pieceSet[0]|l.pieceSet[1] == white|black {
		f.Amount = 1
	}
	l.point(white.First(), black.First())
}
