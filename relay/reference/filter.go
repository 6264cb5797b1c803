package reference

import (
	"fmt"

	"clocktell/relay/clock"
)

// Filter says which games count. The zero value lets all pass.
type Filter struct {
	MinRating        int         // both players have at least this, a whole number of hundreds; 0: any, unknown too
	FromYear, ToYear int         // both included; 0: open. With either, games of an unknown year do not pass
	OnlyOverTheBoard bool        // only games whose tags say so
	Class            clock.Class // only games of this class; unknown: all
}

// Check returns an error that wraps ErrFilter if the filter cannot be answered
// exactly.
func (f Filter) Check() error {
	switch {
	case f.MinRating%100 != 0 || f.MinRating < 0 || f.MinRating > RatingMost:
		return fmt.Errorf("%w: minimum rating %d; give a whole number of hundreds from 0 to %d", ErrFilter, f.MinRating, RatingMost/100*100)
	case f.FromYear < 0 || f.ToYear < 0 || f.FromYear > YearMost || f.ToYear > YearMost:
		return fmt.Errorf("%w: years %d to %d; give years from 1 to %d, or 0 for any", ErrFilter, f.FromYear, f.ToYear, YearMost)
	case f.Class > classBits:
		return fmt.Errorf("%w: class %d", ErrFilter, f.Class)
	}
	return nil
}

// Passes reports whether a game counts.
func (f Filter) Passes(g Game) bool {
	s := f.sieve()
	return s.passes(pack(g))
}

// sieve is a Filter made ready.
type sieve struct {
	all    bool // everything passes
	rating uint64
	from   uint64 // first year
	span   uint64 // years after it
	groups uint32 // a bit for each class and venue that passes
}

func (f Filter) sieve() sieve {
	if f == (Filter{}) {
		return sieve{all: true, span: YearMost, groups: 1<<groups - 1}
	}
	s := sieve{rating: uint64(f.MinRating)}
	to := uint64(YearMost)
	if f.FromYear > 0 || f.ToYear > 0 {
		s.from = max(1, uint64(f.FromYear))
	}
	if f.ToYear > 0 {
		to = uint64(f.ToYear)
	}
	if s.from <= to { // else no year passes
		s.span = to - s.from
		s.groups = f.groups()
	}
	return s
}

// groups marks each class and venue that passes.
func (f Filter) groups() uint32 {
	marks := uint32(0)
	for g := range attributes(groups) {
		a := g << 38
		if (!f.OnlyOverTheBoard || a.venue() == OverTheBoard) && (f.Class == clock.ClassUnknown || a.class() == f.Class) {
			marks |= 1 << g
		}
	}
	return marks
}

func (s *sieve) passes(a attributes) bool {
	return a.lower() >= s.rating && a.year()-s.from <= s.span && s.groups>>a.group()&1 != 0
}

// years reports whether all years from first to last pass.
func (s *sieve) years(first, last uint64) bool {
	return first >= s.from && last-s.from <= s.span
}
