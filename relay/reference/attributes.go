package reference

import "clocktell/relay/clock"

// attributes are what counting needs of a game, in 8 bytes:
//
//	bits 0-11 White's rating, 12-23 Black's, 24-35 year, 36-37 result,
//	38-40 class, 41-42 venue, 43-54 the lower of the ratings, 0 if one is unknown
type attributes uint64

const (
	classBits = 7
	venueBits = 3
)

func pack(g Game) attributes {
	a := within(g.WhiteRating, RatingMost) | within(g.BlackRating, RatingMost)<<12 | within(g.Year, YearMost)<<24
	a |= within(int(g.Result), int(BlackWon)) << 36
	a |= within(int(g.Class), classBits) << 38
	a |= within(int(g.Venue), int(Elsewhere)) << 41
	return a | min(a&0xfff, a>>12&0xfff)<<43
}

// within returns v, or 0 if v is not within 0 to most.
func within(v, most int) attributes {
	if v < 0 || v > most {
		return 0
	}
	return attributes(v)
}

func (a attributes) white() uint64      { return uint64(a & 0xfff) }
func (a attributes) black() uint64      { return uint64(a >> 12 & 0xfff) }
func (a attributes) year() uint64       { return uint64(a >> 24 & 0xfff) }
func (a attributes) result() Result     { return Result(a >> 36 & 3) }
func (a attributes) class() clock.Class { return clock.Class(a >> 38 & classBits) }
func (a attributes) venue() Venue       { return Venue(a >> 41 & venueBits) }
func (a attributes) lower() uint64      { return uint64(a >> 43 & 0xfff) }

// hundred is the lower rating in hundreds, rounded down.
func (a attributes) hundred() uint64 { return a.lower() / 100 }

// group is class and venue in one number.
func (a attributes) group() uint64 { return uint64(a >> 38 & (groups - 1)) }
