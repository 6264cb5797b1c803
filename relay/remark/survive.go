package remark

import "clocktell/relay/bitboard"

// What a chance wins must not be lost again to what the search does not see: a mate that comes after the
// gain, or a pawn that then promotes.

// How far it is looked.
const (
	afterDepth   = 2    // plies of any kind after the gain, captures behind them
	afterMate    = 2    // moves of a mate by checks
	afterNodes   = 1500 // positions of one search for it
	afterPawn    = 5    // the rank from which on a pawn may promote, the first being 0
	survivedMost = 12_000
)

// survives reports whether after every reply to a move that took gain, with p the position after it, there is
// a move that makes it least in all, and does not leave the other side a mate or a pawn that runs through.
func survives(p *Position, gain, least int) bool {
	s := search{most: survivedMost}
	var room [bitboard.MaxMoves]Move
	for _, reply := range p.Moves(room[:0]) {
		next := *p
		next.Make(reply)
		if next.IsMate() || !s.keeps(&next, gain-taken(p, reply), least) {
			return false
		}
	}
	return s.nodes < s.most
}

// keeps reports whether the side to move, which is so much ahead, has a move that keeps it at least that far.
func (s *search) keeps(p *Position, ahead, least int) bool {
	var room [bitboard.MaxMoves]Move
	var keys [bitboard.MaxMoves]int
	for i, m := range bestFirst(p, p.Moves(room[:0]), keys[:0], false) {
		if m.Promotion() != bitboard.NoPieceType {
			continue // that was to be had before
		}
		next := *p
		next.Make(m)
		if next.IsMate() {
			return true
		}
		won := ahead + keys[i]>>keyBits
		if won >= least && won-s.best(&next, afterDepth, won-least-1, won-least+1) >= least && !counters(&next) {
			return true
		}
	}
	return false
}

// counters reports whether the side to move has a mate by checks, or a pawn whose way to promotion is free
// and not held.
func counters(p *Position) bool {
	c := p.Turn()
	for s := flipped(c, p.Pieces(c, bitboard.Pawn)); s != 0; s = s.Rest() {
		pawn := s.First()
		if pawn.Rank() < afterPawn {
			continue
		}
		free := true
		for on := pawn + 8; on < 64; on += 8 {
			way := homeward(c, on)
			free = free && p.Piece(way) == bitboard.NoPiece && p.Attackers(way)&p.Side(c.Other()) == 0
		}
		if free {
			return true
		}
	}
	nodes := 0
	for n := 1; n <= afterMate; n++ {
		if matesWithin(p, n, &nodes, afterNodes) != bitboard.NoMove {
			return true
		}
	}
	return false
}
