package clock

// Side is one of the two players, White before Black.
type Side uint8

// The two sides. Their values index arrays of two.
const (
	White Side = iota
	Black
)

// Other returns the opponent.
func (s Side) Other() Side { return 1 - s }

// String returns "white" or "black".
func (s Side) String() string {
	if s == White {
		return "white"
	}
	return "black"
}
