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

// castlingPrevented names the men that attack these squares, from the king outwards.
func (l *look) castlingPrevented(c Colour, wing Wing, attacked Set) {
	king, step, kind := l.king[c], 1, CastlingPrevented
	if wing == QueenSide {
		step = -1
	}
	if attacked.Has(king) {
		kind = CastlingInCheck
	}
	f := l.add(kind, c)
	f.Wing, f.Amount = wing, attacked.Count()
	l.point(king)
	var named Set
	for n := range 3 {
		square := Square(int(king) + n*step)
		if !attacked.Has(square) {
			continue
		}
		if named == 0 && square != king {
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
	case !l.menaced(c):
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

// menaced reports whether the other side has what it takes to attack a king along files.
func (l *look) menaced(c Colour) bool {
	them := c.Other()
	return l.p.Pieces(them, bitboard.Queen) != 0 || l.p.Pieces(them, bitboard.Rook).Rest() != 0
}

// kingLines looks at the king's file and those next to it.
func (l *look) kingLines(c Colour) {
	king, them := l.king[c], c.Other()
	if flippedSquare(c, king).Rank() > 2 || !l.menaced(c) {
		return
	}
	heavy := l.p.Pieces(them, bitboard.Rook) | l.p.Pieces(them, bitboard.Queen)
	for s := bitOf(king) | beside(bitOf(king)); s != 0; s = s.Rest() {
		file := bitboard.FileSet(s.First().File())
		if file&l.pawns[c] != 0 {
			continue
		}
		kind := HalfOpenLineToKing
		if file&l.pawns[them] == 0 {
			kind = OpenLineToKing
		}
		l.add(kind, c)
		l.point(king)
		if on := file & heavy; on != 0 {
			l.pointAll(c, on)
		} else {
			l.point(bitboard.NewSquare(s.First().File(), 7-7*int(c)))
		}
	}
}
