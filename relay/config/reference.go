package config

import (
	"fmt"
	"slices"
	"strings"
)

// What a rating and a year may be.
const (
	ratingMost = 4000
	yearLeast  = 1400
	yearMost   = 2200
)

var timeClasses = []string{"", "rapid", "blitz", "standard"}

func (v *validator) reference(r *Reference) {
	if r.MinRating < 0 || r.MinRating > ratingMost || r.MinRating%100 != 0 {
		v.wrong("reference.min_rating", "%d is not a rating in hundreds; 0 to %d", r.MinRating, ratingMost)
	}
	v.year("reference.from_year", r.FromYear)
	v.year("reference.to_year", r.ToYear)
	if r.ToYear != 0 && r.FromYear > r.ToYear {
		v.wrong("reference.to_year", "%d is before from_year, %d", r.ToYear, r.FromYear)
	}
	if !slices.Contains(timeClasses, r.TimeClass) {
		v.wrong("reference.time_class", "%q is none of rapid, blitz, standard; leave it empty for all", r.TimeClass)
	}
}

func (v *validator) year(key string, year int) {
	if year != 0 && (year < yearLeast || year > yearMost) {
		v.wrong(key, "%d is not a year; %d to %d, or 0 for any", year, yearLeast, yearMost)
	}
}

// Counted says in words which games count, "" for all.
func (r *Reference) Counted() string {
	var words []string
	if r.MinRating > 0 {
		words = append(words, fmt.Sprintf("both players %d or more", r.MinRating))
	}
	switch {
	case r.FromYear > 0 && r.ToYear > 0:
		words = append(words, fmt.Sprintf("%d to %d", r.FromYear, r.ToYear))
	case r.FromYear > 0:
		words = append(words, fmt.Sprintf("since %d", r.FromYear))
	case r.ToYear > 0:
		words = append(words, fmt.Sprintf("up to %d", r.ToYear))
	}
	if r.TimeClass != "" {
		words = append(words, r.TimeClass)
	}
	if r.OverTheBoard {
		words = append(words, "over the board")
	}
	return strings.Join(words, ", ")
}
