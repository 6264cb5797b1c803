package facts

import "clocktell/relay/bitboard"

func (l *look) kings() {
	for c := range both {
		l.castling(c, KingSide)
		l.castling(c, QueenSide)
		l.kingPlace(c)
		l.kingLines(c)
	}
}

// way is where castling leads, as White.
type way struct {
	rook, to Square
	free     Set // must be empty
	safe     Set // must not be attacked
}

var ways = [...]way{
	KingSide: {bitboard.H1, bitboard.G1, bitboard.SetOf(bitboard.F1, bitboard.G1),
		bitboard.SetOf(bitboard.E1, bitboard.F1, bitboard.G1)},
	QueenSide: {bitboard.A1, bitboard.C1, bitboard.SetOf(bitboard.B1, bitboard.C1, bitboard.D1),
		bitboard.SetOf(bitboard.C1, bitboard.D1, bitboard.E1)},
}

func (l *look) castling(c Colour, wing Wing) {
	w := ways[wing]
	king, rook := l.king[c], flippedSquare(c, w.rook)
	if !l.p.Castles(c).Has(rook) {
		return
	}
	if blockers := flipped(c, w.free) & l.occupied; blockers != 0 {
		l.add(CastlingBlocked, c).Wing = wing
		l.point(king)
		l.pointAll(c, blockers)
		return
	}
	if attacked := flipped(c, w.safe) & l.attacked[c.Other()]; attacked != 0 {
		l.castlingPrevented(c, wing, attacked)
		return
	}
	l.add(CastlingAvailable, c).Wing = wing
	l.point(king, flippedSquare(c, w.to), rook)
}

// castlingPrevented takes the squares from the king outwards.
func (l *look) castlingPrevented(c Colour, wing Wing, attacked Set) {
	f := l.add(CastlingPrevented, c)
	f.Wing, f.Amount = wing, attacked.Count()
	king := l.king[c]
	step := 1
	if wing == QueenSide {
		step = -1
	}
	l.point(king)
	var named Set
	for n := range 3 {
		square := Square(int(king) + n*step)
		if !attacked.Has(square) {
			continue
		}
		if named == 0 {
			l.point(square)
		}
		attackers := l.p.Attackers(square) & l.side[c.Other()] &^ named
		l.pointAll(c, attackers)
		named |= attackers
	}
}

// shelterFiles are the files before a king on the king's side; those of the queen's
// side lie five files to the left.
const shelterFiles = fileA<<5 | fileA<<6 | fileA<<7

func (l *look) kingPlace(c Colour) {
	king := flippedSquare(c, l.king[c])
	if king.Rank() > 1 {
		return
	}
	queens := l.p.Types(bitboard.Queen)
	shelter, wing := shelterFiles, KingSide
	switch {
	case king.File() == 3 || king.File() == 4:
		if queens&l.side[0] != 0 && queens&l.side[1] != 0 {
			l.add(KingInCentre, c)
			l.point(l.king[c])
		}
		return
	case king.File() < 3:
		shelter, wing = shelterFiles>>5, QueenSide
	}
	further := ^Set(0) << (8 * (king.Rank() + 1))
	cover := flipped(c, l.pawns[c]) & shelter & further & (rank1<<8 | rank1<<16)
	f := l.add(PawnCover, c)
	f.Wing, f.Amount = wing, (files(cover) & rank1).Count()
	l.point(l.king[c])
	l.pointAll(c, flipped(c, cover))
}

// kingLines looks at the king's file and those next to it.
func (l *look) kingLines(c Colour) {
	king, them := l.king[c], c.Other()
	heavy := l.p.Pieces(them, bitboard.Rook) | l.p.Pieces(them, bitboard.Queen)
	if heavy == 0 {
		return
	}
	for s := bitOf(king) | beside(bitOf(king)); s != 0; s = s.Rest() {
		on := s.First()
		file := bitboard.FileSet(on.File())
		if file&l.pawns[c] != 0 {
			continue
		}
		kind := HalfOpenLineToKing
		if file&l.pawns[them] == 0 {
			kind = OpenLineToKing
		}
		l.add(kind, c)
		l.point(king, on)
		l.pointAll(c, file&heavy)
	}
}
