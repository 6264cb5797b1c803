package remark

import "clocktell/relay/bitboard"

func fianchettoGone(sc *scene, c Colour) {
	enemy, king := c.Other(), sc.p.KingSquare(c)
	home := homeward(c, king)
	if home.Rank() != 0 || home.File() > 1 && home.File() < 6 || sc.queens[enemy] == 0 {
		return
	}
	at := func(file, rank int) Square { return homeward(c, bitboard.NewSquare(file, rank)) }
	pawns := sc.p.Pieces(c, bitboard.Pawn)
	knight, side, inner := 6, 7, 5
	if home.File() < 2 {
		knight, side, inner = 1, 0, 2
	}
	cover := pawns.Has(at(knight, 2)) && pawns.Has(at(inner, 1)) && (pawns.Has(at(side, 1)) || pawns.Has(at(side, 2)))
	colour := coloured(at(knight, 1))
	if !cover || sc.p.Pieces(c, bitboard.Bishop)&colour != 0 || sc.p.Pieces(enemy, bitboard.Bishop)&colour == 0 {
		return
	}
	sc.add(FianchettoGone, c, king, at(knight, 2))
	if sc.before.Pieces(c, bitboard.Bishop)&colour == 0 && !sc.stood() {
		sc.drop()
	}
}

// coloured is all squares of a square's colour.
func coloured(s Square) Set {
	const light Set = 0x55aa55aa55aa55aa
	if light.Has(s) {
		return light
	}
	return ^light
}
