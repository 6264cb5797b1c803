package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// mateNodes is how many positions the search for a mate by checks looks at, mateMoves how far.
const (
	mateNodes = 4000
	mateMoves = 3
)

func forcedMate(sc *scene, c Colour) {
	if c != sc.turn || sc.has(facts.MateOffer, c) {
		return
	}
	nodes := 0
	for n := 2; n <= mateMoves; n++ {
		if m := matesBy(sc.p, n, &nodes); m != bitboard.NoMove && nodes < mateNodes {
			r := sc.add(MateForced, c, m.From(), m.To(), sc.p.KingSquare(c.Other()))
			r.Move, r.Amount = m, int16(n)
			return
		}
	}
}

// matesBy returns a check by which the side to move mates in n moves at most, checks all of them, whatever is
// replied; NoMove: none was found. Of several it is the one that takes most, then that of the lower squares.
func matesBy(p *Position, n int, nodes *int) Move { return matesWithin(p, n, nodes, mateNodes) }

// matesWithin is matesBy with so many positions to look at.
func matesWithin(p *Position, n int, nodes *int, most int) Move {
	var room, replies [bitboard.MaxMoves]Move
	var keys [bitboard.MaxMoves]int
	for _, m := range bestFirst(p, p.Moves(room[:0]), keys[:0], false) {
		next := *p
		next.Make(m)
		if !next.InCheck() {
			continue
		}
		if *nodes++; *nodes >= most {
			return bitboard.NoMove
		}
		answers := next.Moves(replies[:0])
		if len(answers) > 0 && n == 1 {
			continue
		}
		if allMated(&next, answers, n-1, most, nodes) {
			return m
		}
	}
	return bitboard.NoMove
}

// allMated reports whether every answer is mated in n moves; none left is mate at once.
func allMated(p *Position, answers []Move, n, most int, nodes *int) bool {
	for _, answer := range answers {
		next := *p
		next.Make(answer)
		if matesWithin(&next, n, nodes, most) == bitboard.NoMove {
			return false
		}
	}
	return true
}
