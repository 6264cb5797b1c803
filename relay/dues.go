package relay

import (
	"slices"
	"time"
)

// noteDues keeps of each board when time alone may next change it; before is the show that
// this one follows on. Most boards are the same as in that, and are not looked at: what
// nothing happens on is to cost nothing.
func (s *Show) noteDues(before *Show) {
	dues := slices.Grow(slices.Clip(before.dues), len(s.Boards)-len(before.dues))[:len(s.Boards)]
	shared := len(s.Boards) == len(before.dues)
	for i, b := range s.Boards {
		if i < len(before.Boards) && before.Boards[i] == b && (dues[i].IsZero() || dues[i].After(s.At)) {
			continue
		}
		if due := earlier(b.Due(), b.offersDue(s.At)); due != dues[i] {
			if shared {
				dues, shared = slices.Clone(dues), false
			}
			dues[i] = due
		}
	}
	s.dues = dues
}

// waits reports that time up to t changes nothing of the board at an index, which is as it
// was in the show before.
func (s *Show) waits(i int, before *Show, t time.Time) bool {
	due := before.dues[i]
	return s.Boards[i] == before.Boards[i] && (due.IsZero() || due.After(t))
}

// earlier returns the earlier of two times of which zero means never.
func earlier(a, b time.Time) time.Time {
	if a.IsZero() || !b.IsZero() && b.Before(a) {
		return b
	}
	return a
}
