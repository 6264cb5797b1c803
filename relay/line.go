package relay

import (
	"slices"
	"time"
)

// line is the states that one thing has had, the oldest first.
type line[S state[S]] []stood[S]

// state is one of them.
type state[S any] interface {
	comparable
	// bytes is what it takes in memory besides what it has in common with the state before; the
	// zero value stands for none.
	bytes(before S) int
}

type stood[S any] struct {
	from  time.Time // show time
	state S
	bytes int // with this
}

// stoodBytes is what a place of a line takes, and half as much again for room to grow.
const stoodBytes = 48 * 3 / 2

// newest returns the state that stands, the zero value for none.
func (l line[S]) newest() (state S) {
	if n := len(l); n > 0 {
		state = l[n-1].state
	}
	return state
}

// add lets a state stand from then on, and returns by how many bytes the line is larger. Of
// what came at the same instant only the last stands.
func (l *line[S]) add(from time.Time, state S) int {
	was := 0
	if n := len(*l); n > 0 && (*l)[n-1].from.Equal(from) {
		was = (*l)[n-1].bytes
		*l = (*l)[:n-1]
	}
	*l = append(*l, stood[S]{from: from, state: state})
	return l.weigh(len(*l)-1) - was
}

// weigh works out what the state at an index takes behind the one before.
func (l line[S]) weigh(i int) int {
	var before S
	if i > 0 {
		before = l[i-1].state
	}
	l[i].bytes = stoodBytes + l[i].state.bytes(before)
	return l[i].bytes
}

func (l line[S]) bytes() (sum int) {
	for i := range l {
		sum += l[i].bytes
	}
	return sum
}

// index returns the state that stood at t, -1 for none.
func (l line[S]) index(t time.Time) int {
	i, same := slices.BinarySearchFunc(l, t, func(s stood[S], t time.Time) int { return s.from.Compare(t) })
	if same {
		return i
	}
	return i - 1
}

// at returns the state that stood at t, since when, and when the next one came; zero values
// where there is none.
func (l line[S]) at(t time.Time) (state S, from, next time.Time) {
	i := l.index(t)
	if i >= 0 {
		state, from = l[i].state, l[i].from
	}
	if i+1 < len(l) {
		next = l[i+1].from
	}
	return state, from, next
}

// forget drops what stood before the horizon only. What stood there counts from there.
func (l *line[S]) forget(horizon time.Time) {
	i := l.index(horizon)
	if i < 0 {
		return
	}
	*l = slices.Delete(*l, 0, i)
	(*l)[0].from = horizon
	l.weigh(0)
}

// coarsen leaves out of what came before an instant those states that were replaced within a
// grain of the one before, and returns how many.
func (l *line[S]) coarsen(grain time.Duration, until time.Time) int {
	s, to, left, gap := *l, 1, 0, false
	for i := 1; i < len(s); i++ {
		if s[i].from.Before(until) && i+1 < len(s) && s[i+1].from.Sub(s[to-1].from) <= grain {
			left, gap = left+1, true
			continue
		}
		if s[to] = s[i]; gap {
			s.weigh(to)
		}
		to, gap = to+1, false
	}
	clear(s[min(to, len(s)):])
	*l = s[:min(to, len(s))]
	return left
}

// spread adds the bytes of each state to the second in which it came, counted back from an
// instant.
func (l line[S]) spread(seconds []int, from time.Time) {
	for i := range l {
		ago := int(from.Sub(l[i].from) / time.Second)
		seconds[min(ago, len(seconds)-1)] += l[i].bytes
	}
}
