package relay

import (
	"slices"
	"sync"
	"time"
)

// HistoryMost is how many states of boards and shows are kept for scenes that are held
// back. Past it, what is older than the newest quarter is thinned out: how finely it is
// known gets coarser, by as little as will do, but not how far back it reaches.
const HistoryMost = 20_000

// finestGrain is how near to each other shows are that are left out first.
const finestGrain = 10 * time.Millisecond

// History is what scenes were shown, as far back as any is held. Its lock is for the
// one that publishes and many that look.
type History struct {
	most int // HistoryMost but in tests

	mu      sync.RWMutex // protects following
	kept    []moment     // oldest first
	newest  *Show        // as it was published
	states  int          // of all
	thinned uint64

	shown lately
}

// moment is what scenes are sent of a show, and when it was published.
type moment struct {
	at     time.Time // show time
	top    *Show     // without boards; that of the moment before where only boards are others
	boards boardList
	states int // that the moment before did not have
}

// statesAfter counts the boards that are others than in the moment before, and the show itself.
func (m moment) statesAfter(before moment) int { return 1 + m.boards.others(before.boards) }

// show puts the show of a moment together, with boards that have been made for one near it.
func (m moment) show(near boardList, made []*Board) *Show {
	next := *m.top
	next.Boards = m.boards.boards(near, made)
	if h := next.hidden; h != nil {
		hides := *h
		hides.show = next.without(&hides)
		next.hidden = &hides
	}
	return &next
}

// HistoryNow is what the metrics read of a History.
type HistoryNow struct {
	Shows   int
	States  int           // of boards and shows
	Reach   time.Duration // of show time, from the oldest to the newest
	Thinned uint64        // shows left out because there were too many
}

// NewHistory returns a history of nothing.
func NewHistory() *History { return &History{most: HistoryMost} }

// keep takes a show that is published at that time. One that looks the same on every
// scene is not kept; what was published before what is known already, as after a clock
// was set back, counts from then.
func (h *History) keep(at time.Time, show *Show) {
	h.mu.Lock()
	defer h.mu.Unlock()
	var before moment
	if n := len(h.kept); n > 0 {
		if h.newest.sameOnScenes(show) {
			return
		}
		before = h.kept[n-1]
		at = later(at, before.at)
	}
	m := moment{at: at, top: show.airedTop(h.newest, before.top), boards: show.airedBoards(h.newest, before.boards)}
	m.states = m.statesAfter(before)
	h.newest = show
	h.kept = append(h.kept, m)
	h.states += m.states
	h.forget(at.Add(-HoldMost))
	if h.states > h.most {
		h.thin()
	}
}

func later(a, b time.Time) time.Time {
	if a.Before(b) {
		return b
	}
	return a
}

// forget drops what no scene is shown any more. What stood at the horizon stays.
func (h *History) forget(horizon time.Time) {
	gone := h.index(horizon)
	if gone < 1 || gone < len(h.kept)/8 && !h.kept[0].at.Before(horizon.Add(-HoldMost/8)) {
		return // not worth moving the others yet
	}
	h.kept = slices.Delete(h.kept, 0, gone)
	h.kept[0].states = h.kept[0].statesAfter(moment{})
	h.count()
}

func (h *History) count() {
	h.states = 0
	for _, m := range h.kept {
		h.states += m.states
	}
}

// thin makes room for an eighth of what may be kept.
func (h *History) thin() {
	for grain := finestGrain; h.states > h.most*7/8 && grain < HoldMost; grain *= 2 {
		h.coarsen(grain)
	}
}

// coarsen leaves out of the older shows those that were replaced within a grain of the
// one before: a scene is shown what came of them, up to a grain late, and nothing early.
func (h *History) coarsen(grain time.Duration) {
	old, to := len(h.kept), 1
	for newer := 0; old > 1 && newer < h.most/4; old-- {
		newer += h.kept[old-1].states
	}
	for i := 1; i < len(h.kept); i++ {
		if i < old && h.kept[i+1].at.Sub(h.kept[to-1].at) <= grain {
			h.thinned++
			continue
		}
		h.kept[to] = h.kept[i]
		h.kept[to].states = h.kept[to].statesAfter(h.kept[to-1])
		to++
	}
	clear(h.kept[to:])
	h.kept = h.kept[:to]
	h.count()
}

// index returns the newest moment that is not behind t, -1 for none; the caller holds
// the lock.
func (h *History) index(t time.Time) int {
	i, same := slices.BinarySearchFunc(h.kept, t, func(m moment, t time.Time) int { return m.at.Compare(t) })
	for same && i+1 < len(h.kept) && h.kept[i+1].at.Equal(t) {
		i++
	}
	if same {
		return i
	}
	return i - 1
}

// at returns the show that was on the scenes at t, nil where that is not known, and
// when the next one came; zero: none has.
func (h *History) at(t time.Time) (show *Show, next time.Time) {
	h.mu.RLock()
	defer h.mu.RUnlock()
	i := h.index(t)
	if i >= 0 {
		show = h.shown.of(h.kept[i])
	}
	if i+1 < len(h.kept) {
		next = h.kept[i+1].at
	}
	return show, next
}

func (h *History) now() HistoryNow {
	h.mu.RLock()
	defer h.mu.RUnlock()
	now := HistoryNow{Shows: len(h.kept), States: h.states, Thinned: h.thinned}
	if n := len(h.kept); n > 0 {
		now.Reach = h.kept[n-1].at.Sub(h.kept[0].at)
	}
	return now
}

// After returns the show after an event that happened in an earlier run, as
// Show.After does, and keeps what it went through. When exactly each of it was on the
// scenes nobody knows: the loop publishes what time alone changes a little late, and
// events sooner than that.
func (h *History) After(s *Show, event Event) *Show {
	h.keep(s.At.Add(Lag), s)
	for due := s.Due(); !due.IsZero() && !due.After(event.When()); due = s.Due() {
		s = s.Advance(due)
		h.keep(due.Add(Lag), s)
	}
	if _, passed := event.(TimePassed); passed {
		return s
	}
	s = s.Apply(event)
	h.keep(s.At.Add(Lag), s)
	return s
}
