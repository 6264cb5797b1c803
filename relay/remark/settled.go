package remark

import (
	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// The search of settled looks so many half-moves far, captures aside, and at so many positions; what
// needs more is not settled.
const (
	settledDepth = 1
	settledNodes = 6000
)

// settled reports that nothing hangs, no piece is bound, and that with the best play of both for a half-move, and captures after it, nobody
// wins as much as a pawn: what is counted on the board now is what will count.
func (sc *scene) settled() bool {
	if !sc.looked {
		sc.looked, sc.calm = true, !sc.unsettled() && holds(sc.p)
	}
	return sc.calm
}

// unsettled reports what shows without a search that counts tell nothing.
func (sc *scene) unsettled() bool { return sc.hanging[0]|sc.hanging[1] != 0 || sc.bound() }

// bound reports that a piece of either side is pinned and attacked by as many as guard it, or that a knight
// has no safe square: it may be lost soon though it does not hang.
func (sc *scene) bound() bool {
	for i := range sc.facts {
		f := &sc.facts[i]
		on := f.Subject()
		switch f.Kind {
		case facts.AbsolutePin, facts.RelativePin:
			around := sc.p.Attackers(on)
			attackers, guards := around&sc.p.Side(f.Side.Other()), around&sc.p.Side(f.Side)
			if f.Pieces()[0].Type() != bitboard.Pawn && attackers.Count() >= guards.Count() {
				return true
			}
		case facts.NoSafeSquare:
			if f.Pieces()[0].Type() == bitboard.Knight && homeward(f.Side, on).Rank() > 2 && sc.p.Attackers(on)&sc.p.Side(f.Side.Other()) != 0 {
				return true
			}
		}
	}
	return false
}

// lostBy reports whether the side to move loses so much, in centipawns, whatever it does.
func lostBy(p *Position, least int) bool {
	s := search{most: searchedNodes}
	return s.best(p, searchDepth, -least, 1-least) <= -least && s.nodes < s.most
}

// plainly is the most that the side to move wins by an exchange on any square.
func plainly(p *Position) int { return bestCapture(p, p.Side(p.Turn().Other())) }
