package relay

import (
	"sync"
	"time"
)

// HistoryMost is how many bytes of memory the past may take that is kept for scenes which are
// held back. Past it, what is older than the newest quarter is thinned out: how finely it is
// known gets coarser, by as little as will do, but not how far back it reaches.
const HistoryMost = 64 << 20

const (
	finestGrain = 10 * time.Millisecond // how near to each other states are that are left out first
	topsFiner   = 16                    // times as finely is known what people did for all to see
)

// History is what scenes were shown, as far back as any is held. Its lock is for the
// one that publishes and many that look.
type History struct {
	most int // HistoryMost but in tests

	mu      sync.RWMutex      // protects following
	tops    line[*keptTop]    // of the show but its boards
	boards  []line[keptBoard] // each board's own, the first being that of board 1
	newest  *Show             // as it was published
	last    time.Time         // when that was
	bytes   int               // of all, about
	grain   time.Duration     // that was needed when it was thinned out last: where the next time begins
	thinned uint64

	lately lately
}

// HistoryNow is what the metrics read of a History.
type HistoryNow struct {
	States  int           // of boards and of the show itself
	Bytes   int           // of memory that they take, about
	Reach   time.Duration // of show time, from the oldest to the newest
	Thinned uint64        // states left out because there were too many
}

// NewHistory returns a history of nothing.
func NewHistory() *History { return &History{most: HistoryMost} }

// keep takes a show that is published at that time. One that looks the same on every
// scene is not kept; what was published before what is known already, as after a clock
// was set back, counts from then.
func (h *History) keep(at time.Time, show *Show) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.newest != nil {
		if h.newest.sameOnScenes(show) {
			return
		}
		at = later(at, h.last)
	}
	if top, before := show.airedTop(h.newest, h.tops.newest()), h.tops.newest(); top != before {
		h.bytes += h.tops.add(at, top)
	}
	for i, b := range show.Boards {
		h.keepBoard(at, i, b)
	}
	h.newest, h.last = show, at
	h.lately.came(at)
	h.forget(at.Add(-HoldMost))
	if h.bytes > h.most {
		h.thin()
	}
}

func (h *History) keepBoard(at time.Time, i int, b *Board) {
	if i == len(h.boards) {
		h.boards = append(h.boards, nil)
	}
	switch line := &h.boards[i]; {
	case h.newest == nil || i >= len(h.newest.Boards):
		h.bytes += line.add(at, b.keep(&Board{}, keptBoard{}))
	case h.newest.Boards[i].Rev != b.Rev:
		h.bytes += line.add(at, b.keep(h.newest.Boards[i], line.newest()))
	}
}

func later(a, b time.Time) time.Time {
	if a.Before(b) {
		return b
	}
	return a
}

// forget drops what no scene is shown any more. What stood at the horizon counts from there.
func (h *History) forget(horizon time.Time) {
	if !h.tops[0].from.Before(horizon.Add(-HoldMost / 8)) {
		return // not worth moving the others yet
	}
	h.tops.forget(horizon)
	for i := range h.boards {
		h.boards[i].forget(horizon)
	}
	h.count()
}

func (h *History) count() {
	h.bytes = h.tops.bytes()
	for _, line := range h.boards {
		h.bytes += line.bytes()
	}
}

// thin makes room for an eighth of what may be kept. A scene is shown what came of the states
// left out, up to a grain late, and nothing early. One that has seen them already is to stay as
// it is until then.
func (h *History) thin() {
	whole := h.wholeFrom()
	for grain := max(finestGrain, h.grain/2); h.bytes > h.most*7/8 && grain < HoldMost; grain *= 2 {
		left := h.tops.coarsen(grain/topsFiner, whole)
		for i := range h.boards {
			left += h.boards[i].coarsen(grain, whole)
		}
		h.thinned += uint64(left)
		h.grain = grain
		h.count()
	}
}

// wholeFrom returns since when there is as much as the newest quarter of what may be kept.
func (h *History) wholeFrom() time.Time {
	seconds := make([]int, h.reach()/time.Second+1) // bytes of each, the newest first
	h.tops.spread(seconds, h.last)
	for _, line := range h.boards {
		line.spread(seconds, h.last)
	}
	newer := 0
	for ago, bytes := range seconds {
		if newer += bytes; newer > h.most/4 {
			return h.last.Add(-time.Duration(ago) * time.Second)
		}
	}
	return h.tops[0].from
}

func (h *History) reach() time.Duration {
	if len(h.tops) == 0 {
		return 0
	}
	return h.last.Sub(h.tops[0].from)
}

// at returns the show that was on the scenes at t, nil where that is not known, and
// when the next one came; zero: none has.
func (h *History) at(t time.Time) (show *Show, next time.Time) {
	h.mu.RLock()
	defer h.mu.RUnlock()
	return h.lately.at(t, h.picture)
}

// picture finds what was on the scenes at t; the caller holds the lock.
func (h *History) picture(t time.Time) picture {
	var p picture
	top, from, next := h.tops.at(t)
	if p.top = top; top == nil {
		p.next = next
		return p
	}
	p.boards = make([]keptBoard, top.boards)
	p.came(from, next)
	for i := range p.boards {
		p.boards[i], from, next = h.boards[i].at(t)
		p.came(from, next)
	}
	return p
}

func (h *History) now() HistoryNow {
	h.mu.RLock()
	defer h.mu.RUnlock()
	now := HistoryNow{States: len(h.tops), Bytes: h.bytes, Reach: h.reach(), Thinned: h.thinned}
	for _, line := range h.boards {
		now.States += len(line)
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
