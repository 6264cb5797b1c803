package relay

import (
	"cmp"
	"slices"
	"time"
)

// healthSpan is how far back the producer sees which feed was followed and by how much
// running clocks were wrong.
const healthSpan = 10 * time.Minute

// healthMost is how many of each are kept at most.
const healthMost = 256

// Span is a time from one instant to another; a zero To has not come yet.
type Span struct{ From, To time.Time }

// markFollowed notes of every feed since when, or until when, some board follows it.
func (s *Show) markFollowed() {
	for i, f := range s.Feeds {
		last := len(f.Followed) - 1
		was := last >= 0 && f.Followed[last].To.IsZero()
		is := slices.ContainsFunc(s.Boards, func(b *Board) bool { return b.Feed == f.Name })
		if was == is {
			continue
		}
		next := *f
		next.Followed = slices.DeleteFunc(slices.Clone(f.Followed), func(span Span) bool { return longPast(span.To, s.At) })
		if is {
			next.Followed = append(next.Followed, Span{From: s.At})
		} else {
			next.Followed[len(next.Followed)-1].To = s.At
		}
		next.Followed = next.Followed[max(0, len(next.Followed)-healthMost):]
		s.Feeds[i] = &next
		s.FeedsRev++
	}
}

// ClockErrorAt is by how much a reading showed a running clock to have been wrong.
type ClockErrorAt struct {
	Rev   uint64 // of the sources that it came with
	At    time.Time
	Board int
	By    time.Duration
}

// markErrors notes what a board's new readings told of its running clock.
func (s *Show) markErrors(was, next *Board) {
	before := was.errorsOf(next.Game).Count
	if next.Errors.Count <= before {
		return
	}
	recent := next.Errors.recent
	recent = recent[max(0, len(recent)-(next.Errors.Count-before)):]
	s.SourcesRev++ // whoever holds the one before has none of these
	all := slices.DeleteFunc(slices.Clone(s.ClockErrors), func(e ClockErrorAt) bool { return longPast(e.At, s.At) })
	for _, by := range recent {
		all = append(all, ClockErrorAt{Rev: s.SourcesRev, At: s.At, Board: next.Number, By: by})
	}
	s.ClockErrors = all[max(0, len(all)-healthMost):]
}

// ClockErrorsSince returns the errors of running clocks kept that have come after a revision of
// the sources.
func (s *Show) ClockErrorsSince(rev uint64) []ClockErrorAt {
	at, _ := slices.BinarySearchFunc(s.ClockErrors, rev+1, func(e ClockErrorAt, rev uint64) int { return cmp.Compare(e.Rev, rev) })
	return s.ClockErrors[at:]
}

// longPast reports that an instant has come and lies too far back to be shown.
func longPast(at, now time.Time) bool { return !at.IsZero() && now.Sub(at) > healthSpan }
