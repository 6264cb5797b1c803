package remark

import "clocktell/relay/bitboard"

// A chance is promised by the exchanges on the squares it is about. Before it is said a search
// over all moves must bear it out, so that a capture elsewhere, or a check, does not undo it.

// How far the search looks.
const (
	searchDepth   = 2 // plies of any kind after the move, the reply and what follows it
	chanceDepth   = 4 // the same for chances: the reply to what follows, and what then follows
	captureDepth  = 6 // plies of captures after these
	mateCost      = 10_000
	searchedNodes = 20_000 // positions; a search that needs more bears nothing out
)

// search counts the positions looked at.
type search struct {
	nodes int
	most  int // it gives up after so many
}

// proven returns how much of what a legal move promises, in centipawns, it wins whatever is replied, if
// that is worth saying; else 0.
func proven(p *Position, m Move, promised int) int {
	s := search{most: searchedNodes}
	gain := taken(p, m)
	after := *p
	after.Make(m)
	if gain-s.best(&after, 0, gain-worthSaying, gain-worthSaying+1) < worthSaying {
		return 0 // most that is not so shows soon
	}
	won := gain - s.best(&after, chanceDepth, gain-promised, gain-worthSaying+1)
	if s.nodes >= s.most || won < worthSaying || !survives(&after, gain, worthSaying) {
		return 0
	}
	return min(won, promised) / bitboard.PawnValue * bitboard.PawnValue
}

// best is the most material that the side to move wins, between the bounds.
func (s *search) best(p *Position, depth, low, high int) int {
	check := p.InCheck()
	if depth <= 0 && !check && high <= 0 {
		return 0 // it need not capture
	}
	s.nodes++
	if s.nodes >= s.most {
		return low
	}
	var room [bitboard.MaxMoves]Move
	moves := p.Moves(room[:0])
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
	var next Position // out of the loop it stays on the stack
	var keys [bitboard.MaxMoves]int
	moves = bestFirst(p, moves, keys[:0], quieted)
	for i, m := range moves {
		if most >= high {
			return most
		}
		gain := keys[i] >> keyBits
		next = *p
		next.Make(m)
		floor := max(low, most)
		if quieted && gain <= floor && !next.InCheck() {
			continue // no reply gives it more than it takes
		}
		most = max(most, gain-s.best(&next, depth-1, gain-high, gain-floor))
	}
	return most
}

// keyBits are those below the gain in a key of bestFirst.
const keyBits = 20

// bestFirst sorts moves by what they take, the most first, and puts the key of each beside it; of equal
// ones that of the lesser man comes first, and then the lower squares as the side sees the board, so that a
// search of a mirrored position takes as long. With captures alone others are left out.
func bestFirst(p *Position, moves []Move, keys []int, captures bool) []Move {
	kept := moves[:0]
	for _, m := range moves {
		gain := taken(p, m)
		if captures && gain <= 0 {
			continue
		}
		key := gain<<keyBits | (7-int(p.Piece(m.From()).Type()))<<16 | 0x7fff - order(p.Turn(), m)
		kept, keys = append(kept, m), append(keys, key)
		i := len(kept) - 1
		for ; i > 0 && keys[i-1] < key; i-- {
			kept[i], keys[i] = kept[i-1], keys[i-1]
		}
		kept[i], keys[i] = m, key
	}
	return kept
}

// chanceMoment: the search bears out what is promised, or with a trap what is worth saying.
func chanceMoment(sc *scene, r *Remark) bool {
	least := int(r.Amount)
	if r.Rule == TrapOffered {
		least = worthSaying
	}
	if r.Rule != TrapOffered && r.Rule != PieceHangs && plainly(sc.p) > least-worthSaying {
		return false // it wins hardly more than anybody sees
	}
	if !sc.p.IsLegal(r.Move) {
		return false
	}
	won := proven(sc.p, r.Move, least)
	if r.Rule == ForkOffered && r.Man(2).Type() != bitboard.King && won < bitboard.KnightValue {
		return false // a man that goes astray for so little is often lost
	}
	if won >= worthSaying && r.Rule != TrapOffered {
		r.Amount = int16(won) // no more is promised than was found
	}
	return won >= worthSaying
}

// trappedMoment: the side is on the move, and the search finds nothing that loses less.
func trappedMoment(sc *scene, r *Remark) bool {
	if r.Side != sc.turn {
		return false
	}
	return lostBy(sc.p, worthSaying)
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
