package remark

import (
	"slices"

	"clocktell/relay/bitboard"
)

// What only fills a silence is not kept until there is one: the State after a ply knows what might be
// told of its position, and who has nothing else to tell asks for it there and then.

// preparedMost is how many findings a State can mark as ready.
const preparedMost = 64

// prepare marks what may be told of this position in a silence, all but a search looked at.
func (s *State) prepare(sc *scene) {
	if s.ply-s.last < calmGap {
		return
	}
	for i := range s.found[:min(len(s.found), preparedMost)] {
		r := &s.found[i]
		if law := &rules[r.Rule]; law.calm && s.timely(r) && !rests(r, s.said, s.ply) && sc.apt(r) {
			s.ready |= 1 << i
			s.loose = s.loose || law.counted && sc.unsettled()
		}
	}
}

// Fill returns the best of what is true of the position after the state's last move, p, and worth telling
// when nothing else is. Told is what it has returned before in this game.
func (s *State) Fill(p *Position, told []Remark) (Remark, bool) {
	var left []*Remark
	said := make([]saying, 0, len(told))
	for i := range told {
		said = append(said, told[i].saying())
	}
	for i := range s.found[:min(len(s.found), preparedMost)] {
		if r := &s.found[i]; s.ready&(1<<i) != 0 && !rests(r, said, s.ply) && !foretold(r, said) {
			left = append(left, r)
		}
	}
	searched, calm := false, false
	for len(left) > 0 {
		best := bestOf(left, p.Turn().Other())
		r := *left[best]
		if rules[r.Rule].counted && !searched {
			searched, calm = true, !s.loose && holds(p)
		}
		if !rules[r.Rule].counted || calm {
			r.Said = s.ply
			return r, true
		}
		left = slices.Delete(left, best, best+1)
	}
	return Remark{}, false
}

// Stands reports whether what Fill returned, at this ply or before, is still found and has not had its
// time.
func (s *State) Stands(r *Remark) bool {
	age := int(s.ply - r.Said)
	return age >= 0 && age < r.Life() && was(s.found, r) != nil
}

// foretold reports whether something was told that says as much.
func foretold(r *Remark, said []saying) bool {
	return r.Rule == NoPawnsLeft && slices.ContainsFunc(said, func(one saying) bool {
		return one.rule == LastPawn || one.rule == PawnsLeft
	})
}

// holds reports that with the best play of both for a half-move, and captures after it, nobody wins as much
// as a pawn.
func holds(p *Position) bool {
	s := search{most: settledNodes}
	won := s.best(p, settledDepth, -bitboard.PawnValue, bitboard.PawnValue)
	return s.nodes < settledNodes && won > -bitboard.PawnValue && won < bitboard.PawnValue
}

// Hung returns the men of both sides that hang.
func (s *State) Hung() Set { return s.hung }
