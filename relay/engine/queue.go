package engine

import (
	"slices"
	"time"
)

// How boards share the engine. The most urgent class goes first, and within it the board
// that has waited longest. A board that waits in vain for patience gets a slice all the
// same, undisturbed; such slices are apart by at least starvedEvery, so that the board on
// the air keeps four fifths of the time. So with n boards that all move, each gets its slice
// within patience + n × (slice + starvedEvery), whatever the others do.
const (
	patience     = 20 * time.Second
	slice        = 500 * time.Millisecond // so that a move on the air is judged within a second even then
	starvedEvery = 2 * time.Second
)

// queue is what is wanted, in no order: choose finds the first.
type queue struct {
	wishes  []Wish
	since   map[int]time.Time // since when each board waits
	starved bool              // what is searched now is a starved board's slice
	last    time.Time         // when the last such slice ended
}

func newQueue() queue { return queue{since: make(map[int]time.Time)} }

// set replaces what is wanted.
func (q *queue) set(wishes []Wish, now time.Time) {
	q.wishes = wishes
	waits := make(map[int]bool)
	for _, w := range wishes {
		waits[w.Board] = true
		if _, ok := q.since[w.Board]; !ok {
			q.since[w.Board] = now
		}
	}
	for board := range q.since {
		if !waits[board] {
			delete(q.since, board)
		}
	}
}

// drop takes wishes away.
func (q *queue) drop(goes func(Wish) bool) {
	q.wishes = slices.DeleteFunc(slices.Clone(q.wishes), goes)
}

// begin returns what is to be searched now.
func (q *queue) begin(now time.Time) (Wish, bool) {
	w, starved, ok := q.choose(now)
	q.starved = starved
	return w, ok
}

// end notes that a search has ended.
func (q *queue) end(w Wish, now time.Time) {
	if q.starved {
		q.last = now
	}
	q.starved = false
	if _, ok := q.since[w.Board]; ok {
		q.since[w.Board] = now
	}
}

// choose returns the most urgent wish, and whether it is its turn only because its board
// has waited too long.
func (q *queue) choose(now time.Time) (first Wish, starved, ok bool) {
	for _, w := range q.wishes {
		if !ok || q.before(w, first) {
			first, ok = w, true
		}
	}
	if now.Sub(q.last) < starvedEvery {
		return first, false, ok
	}
	var waits Wish
	for _, w := range q.wishes {
		long := w.Class <= Newest && w.Board != first.Board && now.Sub(q.since[w.Board]) > patience
		if long && (!starved || q.since[w.Board].Before(q.since[waits.Board]) || w.Board == waits.Board && q.before(w, waits)) {
			waits, starved = w, true
		}
	}
	if starved {
		return waits, true, true
	}
	return first, false, ok
}

// before reports whether a goes before b.
func (q *queue) before(a, b Wish) bool {
	if a.Class != b.Class {
		return a.Class < b.Class
	}
	if as, bs := q.since[a.Board], q.since[b.Board]; !as.Equal(bs) {
		return as.Before(bs)
	}
	if a.Board != b.Board {
		return a.Board < b.Board
	}
	return a.Ply > b.Ply // what came last matters most
}

// yields reports whether the search of w, which has gone on for so long, is to be
// stopped: nobody wants it any more, or something is more urgent.
func (q *queue) yields(w Wish, ran time.Duration, now time.Time) bool {
	class, wanted := q.classOf(w)
	if !wanted {
		return true
	}
	if q.starved && ran < slice {
		return false
	}
	if q.starved {
		q.starved, q.last = false, now
	}
	first, starved, _ := q.choose(now)
	return starved || first.Class < class
}

// classOf returns how urgent a wish is by now, and false if nobody has it any more.
func (q *queue) classOf(w Wish) (class Class, wanted bool) {
	for _, other := range q.wishes {
		if other.Key == w.Key && other.Board == w.Board && (!wanted || other.Class < class) {
			class, wanted = other.Class, true
		}
	}
	return class, wanted
}
