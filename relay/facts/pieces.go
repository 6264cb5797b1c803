package facts

import "clocktell/relay/bitboard"

func (l *look) pieces() {
	for c := range both {
		l.loose(c)
		l.hang(c)
	}
	for c := range both {
		l.absolutePins(c)
		l.relativePins(c)
		l.soleDefenders(c)
		l.badBishops(c)
		if l.checkers == 0 {
			l.safety(c)
		}
	}
	if l.checkers == 0 {
		l.squeeze()
	}
}

func (l *look) loose(c Colour) {
	for s := flipped(c, l.pieceSet[c]&^l.attacked[c]); s != 0; s = s.Rest() {
		l.add(Loose, c)
		l.point(flippedSquare(c, s.First()))
	}
}

// hang finds the side's hanging men and remembers them.
func (l *look) hang(c Colour) {
	them := c.Other()
	e := newExchange(&l.views[them])
	for s := flipped(c, (l.side[c]&l.attacked[them])&^bitOf(l.king[c])); s != 0; s = s.Rest() {
		square := flippedSquare(c, s.First())
		won, with := e.capture(them, square)
		if won <= 0 {
			continue
		}
		l.hanging[c] |= bitOf(square)
		l.add(Hanging, c).Amount = won
		l.point(square, with)
	}
}

// badBishops finds bishops behind their own fixed pawns.
func (l *look) badBishops(c Colour) {
	own, theirs := flipped(c, l.pawns[c]), flipped(c, l.pawns[c.Other()])
	fixed := own & (theirs >> 8) & centralFiles
	for s := flipped(c, l.p.Pieces(c, bitboard.Bishop)); s != 0; s = s.Rest() {
		square := s.First()
		colour := sameColour(square)
		wall := fixed & colour
		if wall.Count() < 2 || wall>>(square&56) == 0 {
			continue
		}
		l.add(BadBishop, c).Amount = (own & colour).Count()
		l.point(flippedSquare(c, square))
		l.pointAll(c, flipped(c, wall))
	}
}
