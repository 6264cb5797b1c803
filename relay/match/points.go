package match

import "strconv"

// Points is a score in half points, so that it is exact.
type Points int

// What a game brings.
const (
	HalfPoint Points = 1
	OnePoint  Points = 2
)

// String writes the points as score tables do: "2½".
func (p Points) String() string {
	if p%OnePoint == 0 {
		return strconv.Itoa(int(p / OnePoint))
	}
	if p == HalfPoint {
		return "½"
	}
	return strconv.Itoa(int(p/OnePoint)) + "½"
}

// Side is a side of a match: a player or a team. It keeps its name through the match,
// whatever its colour.
type Side uint8

// The sides. Neither stands for a level score, or for colours that are not known.
const (
	Neither Side = iota
	First
	Second
)

// Other returns the opponent of First or Second.
func (s Side) Other() Side {
	switch s {
	case First:
		return Second
	case Second:
		return First
	}
	return Neither
}

// Tally is the points of First and Second.
type Tally [2]Points

// Of returns the points of First or Second, 0 for Neither.
func (t Tally) Of(side Side) Points {
	if side == Neither {
		return 0
	}
	return t[side-First]
}

// Result is how a game ended, seen from the sides of the match and not from the
// colours.
type Result uint8

// The results. Unknown is a game not finished, or one whose result is not known.
const (
	Unknown Result = iota
	FirstWon
	Drawn
	SecondWon
)

// wonBy returns the result of a game that the side won, Drawn for Neither.
func wonBy(side Side) Result {
	switch side {
	case First:
		return FirstWon
	case Second:
		return SecondWon
	}
	return Drawn
}

// Outcomes is the set of what is still possible: that First wins, that Second does,
// or that it stays level.
type Outcomes uint8

func only(side Side) Outcomes { return 1 << side }

// Has reports whether the side can still win; of Neither, whether it can end level.
func (o Outcomes) Has(side Side) bool { return o&only(side) != 0 }

// Only reports whether nothing else can happen: the side has won, whatever follows;
// of Neither, that it is level for good.
func (o Outcomes) Only(side Side) bool { return o == only(side) }

// Decided returns the only outcome that is left, and false while there are more.
func (o Outcomes) Decided() (Side, bool) {
	for _, side := range []Side{Neither, First, Second} {
		if o.Only(side) {
			return side, true
		}
	}
	return Neither, false
}
