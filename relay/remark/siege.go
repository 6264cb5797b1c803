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

// matesOnBackRank reports whether the enemy, given two moves in a row, has a mate by a rook or queen on
// the king's rank; the first goes by one of these to a square the side does not attack.
func (sc *scene) matesOnBackRank(c Colour) bool {
	p, ok := onMove(sc.p, c.Other())
	if !ok {
		return false
	}
	if matesAlong(&p, p.KingSquare(c).Rank()) {
		return true
	}
	var room [bitboard.MaxMoves]Move
	for _, m := range p.Moves(room[:0]) {
		if !isHeavy(p.Piece(m.From())) || p.Attackers(m.To())&p.Side(c) != 0 {
			continue
		}
		next := p
		next.Make(m)
		if next.InCheck() {
			continue
		}
		if again, ok := onMove(&next, c.Other()); ok && matesAlong(&again, p.KingSquare(c).Rank()) {
			return true
		}
	}
	return false
}

// matesAlong reports whether a rook or queen of the side to move mates by a move to the rank.
func matesAlong(p *Position, rank int) bool {
	var room [bitboard.MaxMoves]Move
	for _, m := range p.Moves(room[:0]) {
		if !isHeavy(p.Piece(m.From())) || m.To().Rank() != rank {
			continue
		}
		next := *p
		next.Make(m)
		if next.IsMate() {
			return true
		}
	}
	return false
}
