package remark

import "clocktell/relay/bitboard"

// Where underFire begins.
const (
	fireLeast = 3 // enemy pieces that attack the king's squares
	fireMore  = 2 // than of the side's own
)

func underFire(sc *scene, c Colour) {
	enemy, king := c.Other(), sc.p.KingSquare(c)
	if sc.queens[enemy] == 0 || homeward(c, king).Rank() > 1 || sc.inCheck {
		return
	}
	zone := bitOf(king) | bitboard.Attacks(king, bitboard.NewPiece(c, bitboard.King), 0)
	attackers, guards := sc.attacking(enemy, zone), sc.attacking(c, zone)
	if attackers.Count() < fireLeast || attackers&sc.queens[enemy] == 0 || attackers.Count() < guards.Count()+fireMore {
		return
	}
	sc.add(KingUnderFire, c, king).Amount = int16(10*attackers.Count() + guards.Count())
}

// attacking returns the side's pieces that attack one of the squares.
func (sc *scene) attacking(c Colour, squares Set) Set {
	var found Set
	occupied := sc.p.Occupied()
	others := sc.p.Types(bitboard.Pawn) | sc.p.Types(bitboard.King)
	for s := sc.p.Side(c) &^ others; s != 0; s = s.Rest() {
		if bitboard.Attacks(s.First(), sc.p.Piece(s.First()), occupied)&squares != 0 {
			found |= bitOf(s.First())
		}
	}
	return found
}

// shieldLeast is how many pawns of its own shut a king in on its back rank.
const shieldLeast = 2

func backRank(sc *scene, c Colour) {
	enemy, king := c.Other(), sc.p.KingSquare(c)
	if homeward(c, king).Rank() != 0 || sc.inCheck {
		return
	}
	rank := bitboard.RankSet(king.Rank())
	if (sc.rooks(c)|sc.queens[c])&rank != 0 {
		return
	}
	around := bitboard.Attacks(king, bitboard.NewPiece(c, bitboard.King), 0)
	for s := around &^ rank &^ sc.p.Side(c); s != 0; s = s.Rest() {
		if sc.p.Attackers(s.First())&sc.p.Side(enemy) == 0 {
			return
		}
	}
	if (around &^ rank & sc.p.Pieces(c, bitboard.Pawn)).Count() < shieldLeast {
		return
	}
	pawns := sc.p.Types(bitboard.Pawn)
	for s := flipped(c, sc.rooks(enemy)|sc.queens[enemy]); s != 0; s = s.Rest() {
		if pawns&bitboard.FileSet(s.First().File()) == 0 {
			sc.add(BackRank, c, king, homeward(c, s.First()))
			return
		}
	}
}

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
