package clock

import "time"

// Class is the kind of chess a time control makes, by FIDE's Laws.
type Class uint8

// The classes.
const (
	ClassUnknown Class = iota
	ClassBlitz
	ClassRapid
	ClassStandard
)

// Bounds of the classes: blitz up to the first, rapid between the two (FIDE Laws
// of Chess 2023, A.1 and B.1), with the increment counted for so many moves.
const (
	blitzMost  = 10 * time.Minute
	rapidBelow = 60 * time.Minute
	classMoves = 60
)

// String returns "blitz", "rapid", "standard", or "" for an unknown class.
func (k Class) String() string {
	switch k {
	case ClassBlitz:
		return "blitz"
	case ClassRapid:
		return "rapid"
	case ClassStandard:
		return "standard"
	}
	return ""
}

// Class returns the class of the control: base time of all its fields, each once,
// and sixty increments; of two sides with unequal clocks, that of the longer. A delay
// counts as an increment (common practice, no source). An hourglass has none, nor has
// a control with a field that is not known.
func (c Control) Class() Class {
	if c.Starts[White].OK || c.Starts[Black].OK {
		white, black := c.For(White), c.For(Black)
		if white.Start() < black.Start() {
			white = black
		}
		white.Starts = [2]Value{}
		return white.Class()
	}
	if !c.Known() {
		return ClassUnknown
	}
	var total time.Duration
	for _, p := range c.Periods {
		if !p.Kind.timed() || p.Kind == KindSandclock {
			return ClassUnknown
		}
		total = within(total + within(p.Base))
	}
	total = within(total - within(c.Periods[0].Base) + c.Start() + classMoves*c.Delay.granted())
	for move := 1; move <= classMoves; move++ {
		total = within(total + c.Increment(move))
	}
	switch {
	case total <= blitzMost:
		return ClassBlitz
	case total < rapidBelow:
		return ClassRapid
	}
	return ClassStandard
}
