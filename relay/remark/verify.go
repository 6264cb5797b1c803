package remark

import "clocktell/relay/bitboard"

// A chance is promised by the exchanges on the squares it is about. Before it is said a search
// over all moves must bear it out, so that a capture elsewhere, or a check, does not undo it.

// How far the search looks.
const (
	searchDepth   = 2 // plies of any kind after the move, the reply and what follows it
	captureDepth  = 6 // plies of captures after these
	mateCost      = 10_000
	searchedNodes = 50_000 // positions; a search that needs more bears nothing out
)

// search counts the positions looked at.
type search struct{ nodes int }

// bearsOut reports whether a legal move wins at least so much, in centipawns, whatever is replied.
func bearsOut(p *Position, m Move, least int) bool {
	var s search
	gain := taken(p, m)
	after := *p
	after.Make(m)
	lost := s.best(&after, searchDepth, gain-least, gain-least+1)
	return s.nodes < searchedNodes && gain-lost >= least
}

// best is the most material that the side to move wins, between the bounds.
func (s *search) best(p *Position, depth, low, high int) int {
	s.nodes++
	if s.nodes >= searchedNodes {
		return low
	}
	var room [bitboard.MaxMoves]Move
	moves := p.Moves(room[:0])
	check := p.InCheck()
	switch {
	case len(moves) == 0 && check:
		return -mateCost
	case len(moves) == 0 || depth == -captureDepth:
		return 0
	}
	most := -mateCost
	quieted := depth <= 0 && !check
	if quieted {
		most = 0 // it need not capture
	}
	for _, first := range []bool{true, false} {
		for _, m := range moves {
			gain := taken(p, m)
			if most >= high || quieted && !first {
				return most
			}
			if (gain > 0) != first {
				continue
			}
			next := *p
			next.Make(m)
			floor := max(low, most)
			most = max(most, gain-s.best(&next, depth-1, gain-high, gain-floor))
		}
	}
	return most
}

// chanceMoment: the search bears out what is promised, or with a trap what is worth saying.
func chanceMoment(sc *scene, r *Remark) bool {
	least := int(r.Amount)
	if r.Rule == TrapOffered {
		least = worthSaying
	}
	return sc.p.IsLegal(r.Move) && bearsOut(sc.p, r.Move, least)
}

// trappedMoment: the side is on the move, and the search finds nothing that loses less.
func trappedMoment(sc *scene, r *Remark) bool {
	if r.Side != sc.turn {
		return false
	}
	var s search
	won := s.best(sc.p, searchDepth, -worthSaying, 1-worthSaying)
	return won <= -worthSaying && s.nodes < searchedNodes
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

func isHeavy(man Piece) bool { return man.Type() == bitboard.Rook || man.Type() == bitboard.Queen }

// onMove returns the position with that side to move; ok is false if it could capture the king then.
func onMove(p *Position, c Colour) (Position, bool) {
	next := *p
	if p.Turn() == c {
		return next, true
	}
	if p.InCheck() {
		return next, false
	}
	empty := (^p.Occupied()).First()
	next.Make(bitboard.NewMove(empty, empty, bitboard.NoPieceType))
	return next, true
}
