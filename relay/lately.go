package relay

import (
	"slices"
	"sync"
)

// latelyMost is how many shows of the past are held ready: scenes held back alike look at the
// same one, and shows there are a few of such groups.
const latelyMost = 16

// lately keeps the shows that were put together last.
type lately struct {
	mu    sync.Mutex // protects following
	shows []latelyShown
}

type latelyShown struct {
	moment moment
	show   *Show
}

// of returns the show of a moment.
func (l *lately) of(m moment) *Show {
	l.mu.Lock()
	defer l.mu.Unlock()
	var near latelyShown
	most := -1 // chunks of boards that m shares with near
	for i := range l.shows {
		s := &l.shows[i]
		if s.moment.same(m) {
			return s.show
		}
		if n := s.moment.boards.shares(m.boards); n > most {
			most, near = n, *s
		}
	}
	if len(l.shows) == latelyMost {
		l.shows = slices.Delete(l.shows, 0, 1)
	}
	show := m.show(near.moment.boards, near.boards())
	l.shows = append(l.shows, latelyShown{m, show})
	return show
}

func (s latelyShown) boards() []*Board {
	if s.show == nil {
		return nil
	}
	return s.show.Boards
}

// same reports whether two moments have the very same show.
func (m moment) same(other moment) bool {
	return m.top == other.top && m.boards.same(other.boards)
}
