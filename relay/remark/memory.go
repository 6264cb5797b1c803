package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// memory is what a position alone does not tell of its game.
type memory struct {
	// passers has for each side and file the ply since which it has had a passed pawn there; 0: none.
	passers [2][8]int16
	series
	queens bool  // there were some at the start
	odds   int8  // by how many pawns White was ahead in the first position
	uneven int16 // the ply of the last quiet position without LevelAgain
	left   Set   // the squares from which men have moved or were captured
}

// remembered returns the memory after the scene's move, which made that ply.
func (sc *scene) remembered(ply int16) memory {
	m := memory{series: sc.continued(), uneven: sc.earlier.memory.uneven, left: sc.earlier.memory.left, odds: sc.earlier.memory.odds, queens: sc.earlier.memory.queens}
	if sc.move == bitboard.NoMove {
		m.queens = sc.p.Types(bitboard.Queen) != 0
		m.odds = int8(sc.p.Pieces(bitboard.White, bitboard.Pawn).Count() - sc.p.Pieces(bitboard.Black, bitboard.Pawn).Count())
	}
	if sc.move != bitboard.NoMove {
		m.left |= bitOf(sc.move.From()) | bitOf(sc.move.To())
	}
	for i := range sc.facts {
		if f := &sc.facts[i]; f.Kind == facts.Passed {
			file := f.Subject().File()
			m.passers[f.Side][file] = sc.passerSince(f.Side, f.Subject(), ply)
		}
	}
	if !sc.level() && sc.quiet() {
		m.uneven = ply
	}
	return m
}

// old is the memory of a first position, where nothing is news.
func (m memory) old() memory {
	m.uneven = longAgo
	for c := range m.passers {
		for file, since := range m.passers[c] {
			if since != 0 {
				m.passers[c][file] = longAgo
			}
		}
	}
	return m
}

// passerSince is since when a passed pawn has been one; one that has captured on another file
// was it before if its old file had one.
func (sc *scene) passerSince(c Colour, pawn Square, ply int16) int16 {
	file := pawn.File()
	if sc.move != bitboard.NoMove && sc.move.To() == pawn {
		file = sc.move.From().File()
	}
	if since := sc.earlier.memory.passers[c][file]; since != 0 {
		return since
	}
	return ply
}

// stayed returns the men of a set that have not left their squares in this game.
func (sc *scene) stayed(men Set) Set { return men &^ sc.memory.left }
