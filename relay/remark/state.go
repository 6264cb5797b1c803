package remark

import (
	"slices"

	"clocktell/relay/bitboard"
)

// State is what was found up to a ply of a game. It is a value and never changed; the
// zero State knows no position, take Begin.
type State struct {
	ply  int16
	last int16 // the ply of the latest remark
	hung Set   // the men that hang
	memory
	found []Remark
	said  []saying // lately, the oldest first
	ready uint64   // a bit for each of the first findings: it may fill a silence, but for a search
	loose bool     // something hangs or is bound, so that counts tell nothing; only known with a bit of ready
}

// saying is that a topic was spoken of.
type saying struct {
	rule Rule
	side Colour
	man  Square // the subject, where it stands now; NoSquare: none, or it was captured
	ply  int16
	kind uint8 // of ending, for EndingBegun
	much int16 // Amount
}

// longAgo is the ply since which everything in a first position has been true: what stood
// there when a game began is no news.
const longAgo = -1000

// backgroundGap is how many plies after the latest remark one of the background may come.
const backgroundGap = 2

// calmGap is how many plies after the latest remark one may come that only fills a silence.
const calmGap = 2

// Of a man that was spoken of within so many plies nothing else is said that ranks below chances and mates.
const (
	sameManAgo = 2
	chanceRank = 60
)

// Begin returns the state of a game that begins in that position.
func Begin(start *Position) State {
	sc := newScene(start, bitboard.NoMove, start, nil, &State{})
	s := State{last: longAgo, hung: sc.hanging[0] | sc.hanging[1]}
	s.memory = sc.memory.old()
	for _, r := range sc.found {
		r.Since = longAgo
		s.found = append(s.found, r)
	}
	return s
}

// Next returns the state after a legal move. Earlier are the hashes of the positions that the
// one after the move may repeat; its own is not among them.
func (s State) Next(before *Position, m Move, after *Position, earlier ...uint64) State {
	sc := newScene(before, m, after, earlier, &s)
	next := State{ply: s.ply + 1, last: s.last, said: followed(s.said, m, s.ply+1), hung: sc.hanging[0] | sc.hanging[1], memory: sc.memory}
	next.found = sc.found
	for i := range next.found {
		r := &next.found[i]
		r.Since = next.ply
		if was := was(s.found, r); was != nil {
			r.Since, r.Said = was.Since, was.Said
			if was.Said > 0 {
				r.Amount = was.Amount // as it was said
			}
		}
	}
	next.choose(&sc)
	next.prepare(&sc)
	return next
}

// was returns the finding of before that says the same. What was said with an amount in its
// sentence does not say the same with another.
func was(found []Remark, r *Remark) *Remark {
	for i := range found {
		one := &found[i]
		if one.Rule != r.Rule || !one.says(r) || one.Said > 0 && rules[r.Rule].amountSaid && one.Amount != r.Amount {
			continue
		}
		return one
	}
	return nil
}

// Remarks returns what was found worth saying and still stands, the latest first.
func (s *State) Remarks() []Remark {
	var standing []Remark
	for i := range s.found {
		r := &s.found[i]
		if r.Said > 0 && s.ply-r.Said < int16(rules[r.Rule].life) {
			standing = append(standing, *r)
		}
	}
	slices.SortStableFunc(standing, func(a, b Remark) int { return int(b.Said) - int(a.Said) })
	return standing
}

// followed moves the men spoken of, and forgets what has had its rest.
func followed(said []saying, m Move, ply int16) []saying {
	if len(said) == 0 {
		return nil
	}
	next := make([]saying, 0, len(said)+1)
	for _, one := range said {
		law := &rules[one.rule]
		if int(ply-one.ply) >= max(law.rest, law.again) {
			continue
		}
		switch one.man {
		case m.From():
			one.man = m.To()
		case m.To():
			one.man = bitboard.NoSquare
		}
		next = append(next, one)
	}
	return next
}

// choose makes a remark of the best finding that may become one. What only fills a silence is not
// chosen: whether there is one shows later, see Fill.
func (s *State) choose(sc *scene) {
	room := [usual]*Remark{}
	left := room[:0]
	for i := range s.found {
		if r := &s.found[i]; r.Said == 0 && !rules[r.Rule].calm && s.timely(r) && !rests(r, s.said, s.ply) {
			left = append(left, r)
		}
	}
	for len(left) > 0 {
		best := bestOf(left, sc.mover)
		if r := left[best]; sc.ripe(r) {
			r.Said, s.last = s.ply, s.ply
			s.said = append(s.said, r.saying())
			return
		}
		left = slices.Delete(left, best, best+1)
	}
}

// bestOf returns the index of the finding that comes before all others.
func bestOf(list []*Remark, mover Colour) int {
	best := 0
	for i := 1; i < len(list); i++ {
		if better(list[i], list[best], mover) {
			best = i
		}
	}
	return best
}

// saying is what is kept of a remark.
func (r *Remark) saying() saying {
	return saying{rule: r.Rule, side: r.Side, man: r.subject(), ply: r.Said, kind: r.ending(), much: r.Amount}
}

// timely reports whether a finding has stood as long as its rule wants and no longer, and
// if it is of the background, that nothing else was said just now.
func (s *State) timely(r *Remark) bool {
	law := &rules[r.Rule]
	stood := int(s.ply) - int(r.Since)
	if stood < law.wait || stood > law.wait+law.window {
		return false
	}
	if law.calm {
		return s.ply-s.last >= calmGap
	}
	return law.priority != Background || s.ply-s.last >= backgroundGap
}

// rests reports whether the topic was spoken of lately, at a ply.
func rests(r *Remark, said []saying, ply int16) bool {
	law := &rules[r.Rule]
	return slices.ContainsFunc(said, func(one saying) bool {
		told, ago := &rules[one.rule], int(ply-one.ply)
		switch {
		case r.Rule == EndingBegun && one.rule == EndingBegun:
			return one.kind == r.ending() || ago < told.rest
		case law.topic == aBalance && told.topic == aBalance && ago >= told.rest && !samePieces(r, &one):
			return false // the count has changed
		case r.Rule == SeventhRankDoubled && one.rule == SeventhRank:
			return false
		}
		if ago <= sameManAgo && law.rank < chanceRank && one.man == r.subject() && one.man != bitboard.NoSquare {
			return true
		}
		either := told.either || one.rule.Neutral() || r.Rule.Neutral()
		if told.topic != law.topic || one.side != r.Side && !either {
			return false
		}
		about := told.wide || law.wide || one.man == r.subject() && one.man != bitboard.NoSquare
		return about && ago < told.rest || ago < min(told.lull, law.lull) || one.rule == r.Rule && ago < told.again
	})
}

// samePieces reports whether a remark on the balance says what was said.
func samePieces(r *Remark, said *saying) bool {
	return r.Rule == said.rule && r.Side == said.side && r.Amount == said.much
}

// better orders findings: by rank, then by rule, then those of the side that has moved first.
func better(a, b *Remark, mover Colour) bool {
	x, y := rules[a.Rule].rank, rules[b.Rule].rank
	if x != y || a.Rule != b.Rule {
		return x > y || x == y && a.Rule < b.Rule
	}
	return a.Side == mover && b.Side != mover
}
