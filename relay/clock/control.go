package clock

import "time"

// Kind is the kind of a period of a time control (PGN 1994, 9.6.1).
type Kind uint8

// The six kinds, with the form each has in the TimeControl tag.
const (
	KindUnknown     Kind = iota // "?"
	KindNone                    // "-": no time control
	KindMoves                   // "M/S": so many moves in so many seconds
	KindSuddenDeath             // "S": seconds for the rest of the game
	KindIncrement               // "S+I": seconds for the rest, and I more for each move
	KindSandclock               // "*S": an hourglass, what one side uses the other gets
)

// timed reports whether a period of this kind has a base time.
func (k Kind) timed() bool { return k != KindUnknown && k != KindNone }

// Period is one field of a time control.
type Period struct {
	Kind      Kind
	Moves     int           // own moves to the end of the period, 0: it lasts to the end of the game
	Base      time.Duration // added when the period begins
	Increment time.Duration // added for each own move; beyond PGN, KindMoves may have one too ("40/5400+30")
}

// Control is a time control: its periods in order of use. The last repeats. The
// zero value is an unknown control. What stands behind Periods no TimeControl tag can
// say: it comes from other tags, from the configuration, or from the readings.
type Control struct {
	Periods []Period
	Delay   Delay    // before the clock falls, on every move
	Starts  [2]Value // of each side before its first move, where that is not the first base
	Done    int      // own moves made before the clocks were set, in an adjourned game
	Reads   Reads    // how the feed writes its readings

	start Value // Starts of the side this control is For
}

// Known reports whether the control has a base time to count from.
func (c Control) Known() bool {
	return len(c.Periods) > 0 && c.Periods[0].Kind.timed()
}

// Start returns what each clock shows before the first move, 0 if unknown.
func (c Control) Start() time.Duration {
	switch {
	case !c.Known():
		return 0
	case c.start.OK:
		return within(c.start.D)
	}
	return within(c.Periods[0].Base)
}

// Period returns the period in which own move number move (from 1) is made.
func (c Control) Period(move int) Period {
	p, _ := c.at(move)
	return p
}

// at returns the period of own move number move and how many of the period's own
// moves are made once that move is.
func (c Control) at(move int) (Period, int) {
	if len(c.Periods) == 0 || move < 1 {
		return Period{}, 0
	}
	move += max(0, min(c.Done, maxMoves))
	last := len(c.Periods) - 1
	for _, p := range c.Periods[:last] {
		if p.Moves <= 0 || move <= p.Moves {
			return p, move
		}
		move -= p.Moves
	}
	p := c.Periods[last]
	if p.Moves > 0 {
		move = (move-1)%p.Moves + 1
	}
	return p, move
}

// Increment returns what is added for completing own move number move, from 1.
func (c Control) Increment(move int) time.Duration {
	return within(c.Period(move).Increment)
}

// Bonus returns what own move number move adds by completing a period: the base
// time of the next one. It is 0 for every other move.
func (c Control) Bonus(move int) time.Duration {
	p, made := c.at(move)
	if p.Moves <= 0 || made != p.Moves {
		return 0
	}
	return within(c.Period(move + 1).Base)
}

// MovesToControl returns how many own moves a side that has made done of them must
// still make to complete its period; 0 when no number of moves ends it.
func (c Control) MovesToControl(done int) int {
	p, made := c.at(done + 1)
	if p.Moves <= 0 {
		return 0
	}
	return p.Moves - made + 1
}

// granted returns all the time a side has been given once own move number move is
// completed: the start, increments and the base of every period begun.
func (c Control) granted(move int) time.Duration {
	sum := c.Start()
	for m := 1; m <= move; m++ {
		sum = within(sum + c.grants(m))
	}
	return sum
}
