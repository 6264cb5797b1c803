package relay

import (
	"slices"
	"sync"
	"time"
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
	picture picture
	show    *Show
}

// picture is what stood on the scenes for a while.
type picture struct {
	from, next time.Time // from the one until before the other; next zero: still
	top        *keptTop  // nil: nobody knows
	boards     []keptBoard
}

// came takes since when one of its parts stood, and when the next of that came.
func (p *picture) came(from, next time.Time) {
	p.from = later(p.from, from)
	if !next.IsZero() && (p.next.IsZero() || next.Before(p.next)) {
		p.next = next
	}
}

func (p *picture) stood(t time.Time) bool {
	return !t.Before(p.from) && (p.next.IsZero() || t.Before(p.next))
}

// at returns the show of an instant, and when the next one came. What stood then it finds with look.
func (l *lately) at(t time.Time, look func(time.Time) picture) (*Show, time.Time) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for i := range l.shows {
		if s := &l.shows[i]; s.picture.stood(t) {
			return s.show, s.picture.next
		}
	}
	p := look(t)
	if p.top == nil {
		return nil, p.next
	}
	next := latelyShown{picture: p, show: p.show(l.near(p))}
	if len(l.shows) == latelyMost {
		l.shows = slices.Delete(l.shows, 0, 1)
	}
	l.shows = append(l.shows, next)
	return next.show, p.next
}

// near returns the show that has the most boards in common with a picture.
func (l *lately) near(p picture) latelyShown {
	var near latelyShown
	most := 0
	for _, s := range l.shows {
		same := 0
		for i := range min(len(p.boards), len(s.picture.boards)) {
			if p.boards[i] == s.picture.boards[i] {
				same++
			}
		}
		if same > most {
			most, near = same, s
		}
	}
	return near
}

// show puts the show of a picture together, with the boards that one near it has as well.
func (p picture) show(near latelyShown) *Show {
	next := *p.top.show
	next.Boards = make([]*Board, len(p.boards))
	for i, k := range p.boards {
		if i < len(near.picture.boards) {
			next.Boards[i] = k.board(near.picture.boards[i], near.show.Boards[i])
		} else {
			next.Boards[i] = k.board(keptBoard{}, nil)
		}
	}
	if h := next.hidden; h != nil {
		hides := *h
		hides.show = next.without(&hides)
		next.hidden = &hides
	}
	return &next
}

// came takes that something else was shown from an instant on.
func (l *lately) came(at time.Time) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for i := range l.shows {
		if s := &l.shows[i]; s.picture.next.IsZero() {
			s.picture.next = at
		}
	}
}
