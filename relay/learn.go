package relay

import (
	"slices"
	"time"
)

// Learnt is what is known of a feed's delay, from all its games.
type Learnt struct {
	late   []time.Duration // of the newest plies, the newest last
	usual  time.Duration   // their median, see Late
	Before bool            // its clocks were proven to be read before the increment
	Errors ClockErrors
}

// How many plies a feed's usual delay is learnt from.
const (
	lateLeast = 8
	lateKept  = 32
)

// ErrorBounds are the upper bounds of the buckets of ClockErrors.
var ErrorBounds = [...]time.Duration{
	100 * time.Millisecond, 250 * time.Millisecond, 500 * time.Millisecond, time.Second, 2 * time.Second, 5 * time.Second,
	10 * time.Second, 30 * time.Second, time.Minute,
}

// ClockErrors counts by how much running clocks were wrong, see Timing.Error.
type ClockErrors struct {
	Count   uint64
	Sum     time.Duration
	Buckets [len(ErrorBounds)]uint64 // how many were at most so much
}

func (e *ClockErrors) add(d time.Duration) {
	e.Count++
	e.Sum += d
	for i, bound := range ErrorBounds {
		if d <= bound {
			e.Buckets[i]++
		}
	}
}

// Known reports that enough plies were heard to tell what the feed's delay usually is.
func (l Learnt) Known() bool { return len(l.late) >= lateLeast }

// Late returns how long after a move the feed usually tells of it: the median of
// recent plies; 0 while too few are known.
func (l Learnt) Late() time.Duration { return l.usual }

// after returns what is known once another ply has told how late it came.
func (l Learnt) after(late time.Duration) Learnt {
	l.late = append(slices.Clip(l.late[max(0, len(l.late)-lateKept+1):]), late)
	if l.Known() {
		sorted := slices.Sorted(slices.Values(l.late))
		l.usual = sorted[len(sorted)/2]
	}
	return l
}

// learn takes from a board that has just got another ply what it tells of the delay of
// its feed.
func (s *Show) learn(was, now *Board) {
	if now.Rev == was.Rev || !now.News || now.Game != was.Game || len(now.Plies) <= len(was.Plies) {
		return
	}
	at := slices.IndexFunc(s.Feeds, func(f *Feed) bool { return f.Name == now.Feed })
	if at < 0 {
		return
	}
	next := *s.Feeds[at]
	if now.Timing.Error.OK {
		next.Learnt.Errors.add(now.Timing.Error.D)
	}
	if now.Timing.Learnt {
		next.Learnt = next.Learnt.after(now.Timing.Late)
	}
	next.Learnt.Before = now.Control.Reads.Before
	s.Feeds[at] = &next
}

// defaultsOf returns what the show says of games of a feed.
func (s *Show) defaultsOf(feed string) Defaults {
	d, f := s.defaults, s.feed(feed)
	d.Clocks, d.Late, d.Before = f.Clocks, f.Learnt.Late(), f.Learnt.Before
	return d
}
