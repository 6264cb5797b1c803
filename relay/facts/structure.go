package facts

import "clocktell/relay/bitboard"

func (l *look) structure() {
	for c := range both {
		l.weakSquares(c)
		l.halfOpenFiles(c)
		l.passedPawns(c)
		l.weakPawns(c)
		l.majorities(c)
	}
	l.openFiles()
}

// weakSquares are told with the outposts on them.
func (l *look) weakSquares(c Colour) {
	them := c.Other()
	minors := l.minors(them)
	if minors == 0 {
		return
	}
	own := flipped(c, l.pawns[c])
	defended := pawnAttacks(onward(own))
	supported := flipped(c, l.pawnControl(them))
	region := (rank1<<16 | rank1<<24) &^ fileA &^ fileH
	for s := region & supported &^ defended &^ flipped(c, l.pawns[0]|l.pawns[1]); s != 0; s = s.Rest() {
		square := flippedSquare(c, s.First())
		support := bitboard.Attacks(square, bitboard.NewPiece(c, bitboard.Pawn), 0) & l.pawns[them]
		if minors.Has(square) {
			l.add(Outpost, them)
			l.point(square)
			l.pointAll(c, support)
		}
		knights := l.p.Pieces(them, bitboard.Knight)
		if knights == 0 && minors&sameColour(square) == 0 {
			continue
		}
		l.add(WeakSquare, c)
		l.point(square)
		l.pointAll(c, support)
	}
}

// pawnControl is what the side's pawns attack.
func (l *look) pawnControl(c Colour) Set {
	return flipped(c, pawnAttacks(flipped(c, l.pawns[c])))
}

func (l *look) openFiles() {
	rooks := l.p.Types(bitboard.Rook)
	if rooks == 0 {
		return
	}
	for s := rank1 &^ files(l.pawns[0]|l.pawns[1]); s != 0; s = s.Rest() {
		first := s.First()
		l.add(OpenFile, bitboard.White)
		l.point(first, first+56)
		for c := range both {
			if on := rooks & l.side[c] & bitboard.FileSet(first.File()); on != 0 {
				l.add(RooksOnOpenFile, c)
				l.pointAll(c, on)
			}
		}
	}
}

func (l *look) halfOpenFiles(c Colour) {
	rooks := l.p.Pieces(c, bitboard.Rook)
	if rooks == 0 {
		return
	}
	theirs := flipped(c, l.pawns[c.Other()])
	for s := files(theirs) &^ files(flipped(c, l.pawns[c])) & rank1; s != 0; s = s.Rest() {
		file := files(s & -s)
		pawns := theirs & file
		l.add(HalfOpenFile, c)
		l.point(flippedSquare(c, s.First()), flippedSquare(c, pawns.First()))
		if on := rooks & flipped(c, file); on != 0 {
			l.add(RooksOnHalfOpenFile, c)
			l.pointAll(c, on)
			l.point(flippedSquare(c, nearest(pawns, flipped(c, on).First())))
		}
	}
}

// nearest returns the pawn of a file next to a square: the first before it, or else the
// last behind it.
func nearest(pawns Set, square Square) Square {
	if ahead := pawns &^ (bitOf(square) - 1); ahead != 0 {
		return ahead.First()
	}
	for pawns.Rest() != 0 {
		pawns = pawns.Rest()
	}
	return pawns.First()
}
