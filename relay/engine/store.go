package engine

import (
	"container/list"

	"clocktell/relay/opinion"
)

// keptMost is how many positions are remembered with what was found, the latest asked
// for. At three lines and forty depths one takes some 1.5 kB.
const keptMost = 20_000

// kept is what one search came to.
type kept struct {
	key   uint64
	limit Limit
	said  opinion.Opinion
}

// store keeps results by position.
type store struct {
	by    map[uint64]*list.Element
	order *list.List // of kept, the one asked for last at the front
}

func newStore() store { return store{by: make(map[uint64]*list.Element), order: list.New()} }

// find returns what is known of a position if it was searched far enough.
func (s *store) find(key uint64, limit Limit) (opinion.Opinion, bool) {
	at, ok := s.by[key]
	if !ok || !at.Value.(kept).limit.reaches(limit) {
		return opinion.Opinion{}, false
	}
	s.order.MoveToFront(at)
	return at.Value.(kept).said, true
}

// put keeps a result in place of an earlier one.
func (s *store) put(key uint64, limit Limit, o opinion.Opinion) {
	if at, ok := s.by[key]; ok {
		at.Value = kept{key, limit, o}
		s.order.MoveToFront(at)
		return
	}
	s.by[key] = s.order.PushFront(kept{key, limit, o})
	if s.order.Len() > keptMost {
		oldest := s.order.Back()
		delete(s.by, oldest.Value.(kept).key)
		s.order.Remove(oldest)
	}
}
