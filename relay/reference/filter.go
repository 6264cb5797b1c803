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
	all      bool // everything passes
	rating   uint64
	from, to uint64
	venue    bool
	class    clock.Class
}

func (f Filter) sieve() sieve {
	s := sieve{all: f == Filter{}, rating: uint64(f.MinRating), to: YearMost, venue: f.OnlyOverTheBoard, class: f.Class}
	if f.FromYear > 0 || f.ToYear > 0 {
		s.from = max(1, uint64(f.FromYear))
	}
	if f.ToYear > 0 {
		s.to = uint64(f.ToYear)
	}
	return s
}

func (s *sieve) passes(a attributes) bool {
	return s.all || a.lower() >= s.rating && s.years(a.year()) && s.kinds(a)
}

// years reports whether a year is within the bounds.
func (s *sieve) years(year uint64) bool { return year >= s.from && year <= s.to }

// anyYear reports whether there are no bounds.
func (s *sieve) anyYear() bool { return s.from == 0 && s.to == YearMost }

// kinds reports whether class and venue pass.
func (s *sieve) kinds(a attributes) bool {
	return (!s.venue || a.venue() == OverTheBoard) && (s.class == clock.ClassUnknown || a.class() == s.class)
}
