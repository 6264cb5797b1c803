package build

import "slices"

// Reason says why a game is not in the reference.
type Reason string

// The reasons.
const (
	ReasonNoMoves  Reason = "no moves"
	ReasonMove     Reason = "a move that cannot be played"
	ReasonText     Reason = "the text breaks off inside the moves"
	ReasonPosition Reason = "a starting position that cannot be read"
	ReasonVariant  Reason = "another game than standard chess"
	ReasonLong     Reason = "too long"
	ReasonDouble   Reason = "the double of an earlier game"
	ReasonRating   Reason = "rating below what was asked for, or unknown"
	ReasonYear     Reason = "not of the years asked for, or of no known year"
	ReasonVenue    Reason = "not said to be over the board"
	ReasonClass    Reason = "not of the time class asked for"
)

// reasons has them in the order they are told, broken games first.
var reasons = []Reason{
	ReasonMove, ReasonText, ReasonPosition, ReasonLong, ReasonVariant, ReasonNoMoves, ReasonDouble,
	ReasonRating, ReasonYear, ReasonVenue, ReasonClass,
}

// named reports whether a few of the games are named: not those that were left out as
// asked, or that have nothing in them, since nobody needs to look at them.
func (r Reason) named() bool {
	switch r {
	case ReasonNoMoves, ReasonRating, ReasonYear, ReasonVenue, ReasonClass:
		return false
	}
	return true
}

// ExamplesMost is how many games are named for each reason.
const ExamplesMost = 3

// Report tells what a build has done.
type Report struct {
	Games     int    // read
	Kept      int    // of them
	Skipped   []Skip // the others, by reason; reasons without games are not in it
	Records   int64  // positions of all kept games
	Text      int64  // bytes read, unpacked
	Positions int    // different ones in the file
	Size      int64  // bytes of the file
	Resumed   int    // games that an interrupted build had read
}

// Skip tells how many games were left out for a reason, and of a few which.
type Skip struct {
	Reason   Reason
	Games    int
	Examples []Example
}

// Example is a game that was left out.
type Example struct {
	File   string
	Game   int // its number in the file, from 1
	Line   int // where it begins, from 1
	Who    string
	Detail string // what was wrong, or ""
}

// skip counts a game that was left out.
func (r *Report) skip(reason Reason, example func() Example) {
	i := slices.IndexFunc(r.Skipped, func(s Skip) bool { return s.Reason == reason })
	if i < 0 {
		i = len(r.Skipped)
		r.Skipped = append(r.Skipped, Skip{Reason: reason})
	}
	s := &r.Skipped[i]
	if s.Games++; len(s.Examples) < ExamplesMost && reason.named() {
		s.Examples = append(s.Examples, example())
	}
}

// BySeverity returns what was skipped, broken games first.
func (r Report) BySeverity() []Skip {
	var out []Skip
	for _, reason := range reasons {
		for _, s := range r.Skipped {
			if s.Reason == reason {
				out = append(out, s)
			}
		}
	}
	return out
}

// copy returns a report that shares nothing.
func (r Report) copy() Report {
	r.Skipped = slices.Clone(r.Skipped)
	for i := range r.Skipped {
		r.Skipped[i].Examples = slices.Clone(r.Skipped[i].Examples)
	}
	return r
}

// Stage is what a build is doing.
type Stage uint8

// The stages, in their order.
const (
	Reading Stage = iota // games from files
	Writing              // the reference
)

// Status tells how far a build is.
type Status struct {
	Stage       Stage
	Done, Total int64 // of this stage: bytes of the files, packed as they are; then records
	Games       int   // read so far
	Resumed     int   // of them by an interrupted build
}
