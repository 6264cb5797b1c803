package facts

import "clocktell/relay/bitboard"

// sliders are the side's bishops, rooks and queens.
func (l *look) sliders(c Colour) Set {
	return l.p.Pieces(c, bitboard.Bishop) | l.p.Pieces(c, bitboard.Rook) | l.p.Pieces(c, bitboard.Queen)
}

func (l *look) absolutePins(c Colour) {
	pinned := l.p.Pinned(c)
	for s := flipped(c, pinned); s != 0; s = s.Rest() {
		square := flippedSquare(c, s.First())
		line := l.p.PinLine(c, square)
		through := l.p.AttackersThrough(l.king[c], l.occupied&^bitOf(square))
		pinner := through & l.sliders(c.Other()) & line &^ l.p.Attackers(l.king[c])
		l.add(AbsolutePin, c)
		l.point(square, pinner.First(), l.king[c])
	}
}

// relativePins looks along every line of the other side's sliders.
func (l *look) relativePins(c Colour) {
	them := c.Other()
	for s := flipped(c, l.sliders(them)); s != 0; s = s.Rest() {
		pinner := flippedSquare(c, s.First())
		piece := l.p.Piece(pinner)
		reach := bitboard.Attacks(pinner, piece, l.occupied)
		fronts := reach & l.side[c] &^ bitOf(l.king[c])
		for f := flipped(c, fronts); f != 0; f = f.Rest() {
			front := flippedSquare(c, f.First())
			opened := bitboard.Attacks(pinner, piece, l.occupied&^bitOf(front)) &^ reach
			if behind := opened & l.pieceSet[c]; behind != 0 {
				l.relativePin(c, front, pinner, behind.First())
			}
		}
	}
}

func (l *look) relativePin(c Colour, front, pinner, behind Square) {
	isPawn := l.pawns[c]&bitOf(front) != 0
	if isPawn && front.File() == pinner.File() {
		return
	}
	more := l.worth(behind) - l.worth(front)
	if more < 0 || more == 0 && l.defenders(c, behind)&^bitOf(front) != 0 {
		return
	}
	if won := l.wonWithout(front, pinner, behind); won > 0 {
		l.add(RelativePin, c).Amount = won
		l.point(front, pinner, behind)
	}
}

// defenders are the side's men that attack the square.
func (l *look) defenders(c Colour, s Square) Set { return l.p.Attackers(s) & l.side[c] }

// wonWithout returns what the exchange that begins with that capture wins when one man
// is off the board.
func (l *look) wonWithout(gone, with, on Square) int {
	side := l.p.Piece(with).Colour()
	e := newExchange(&l.views[side])
	e.occupied &^= bitOf(gone)
	e.on, e.standing = on, l.p.Piece(on).Type()
	gain := e.take(with, l.p.Piece(with).Type(), side)
	if !e.legal(side) {
		return 0
	}
	lost, _ := e.best(side.Other(), 0, kingValue)
	return gain - lost
}
