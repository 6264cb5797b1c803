package tell

import (
	"slices"
	"time"
)

// outlook fills in what does not depend on the level.
func (f *Filter) outlook(s *side, left time.Duration) Trouble {
	t := Trouble{
		Limit: f.forecastLimit(s), Below: f.forecastLimit(s), Budget: f.budget(s, left),
		FlagAt:    f.flagAt(s),
		Usual:     s.paces.median(usualMoves, true),
		ToControl: f.of(s).MovesToControl(own(s.ply)),
		Forecast:  f.foresees(s),
	}
	if t.Forecast {
		t.Chance = f.chance(s, left)
		f.date(s, left, &t)
	}
	return t
}

// foresees reports whether enough own moves were timed to look ahead.
func (f *Filter) foresees(s *side) bool { return f.of(s).Known() && s.drift.moves >= troubleFrom }

// flagAt returns the clock below which the flag is near: ten seconds, or what one of
// the side's quick moves costs if that is more, but never more than makes level 3. The
// quick move is the one a quarter up from the fastest of the last eight. Judgement.
func (f *Filter) flagAt(s *side) time.Duration {
	limit := flagLeast
	var buf [kept]int32
	if got := s.paces.last(&buf, usualMoves, false); len(got) >= flagMoves {
		slices.Sort(got)
		quick := time.Duration(got[len(got)/4]) * time.Millisecond
		limit = max(limit, costs(f.of(s), quick))
	}
	return min(limit, troubleAt(f.of(s), 3))
}
