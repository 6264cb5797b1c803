package clock

import "time"

// Reads is how a feed writes its clocks.
type Reads struct {
	Before bool          // clk is read before the increment of the move is added
	Step   time.Duration // the readings are whole multiples of it; 0: a second
}

// Steps of readings, and how many readings it takes to believe in whole minutes: a
// game begins with round figures.
const (
	tenth       = 100 * time.Millisecond
	minuteAfter = 6
)

// tolerance is by how much two readings may contradict each other by being cut.
func (r Reads) tolerance() time.Duration { return max(rounding, min(r.Step, time.Minute)) }

// StepOf returns the largest usual step of which all readings are multiples: a
// minute, a second, a tenth, else a millisecond. 0 means that there are none.
func StepOf(readings []Reading) time.Duration {
	step, n := time.Minute, 0
	var first time.Duration
	differ := false
	for _, r := range readings {
		for _, v := range []Value{r.Left, r.Spent, r.Total} {
			if !v.OK {
				continue
			}
			if n++; n == 1 {
				first = v.D
			}
			differ = differ || v.D != first
			for step > time.Millisecond && v.D%step != 0 {
				step = finer(step)
			}
		}
	}
	switch {
	case n == 0:
		return 0
	case step == time.Minute && (n < minuteAfter || !differ):
		return time.Second
	}
	return step
}

func finer(step time.Duration) time.Duration {
	switch step {
	case time.Minute:
		return time.Second
	case time.Second:
		return tenth
	}
	return time.Millisecond
}

// ReadsBefore finds out whether readings, one a ply, White's first, are written before
// the increment. Most games never show it: consecutive readings differ alike. These do:
// a clock above all that was granted before the move, one below the increment of the
// move, and emt on a first move or egt on any, which fit one way only. Proven is false
// when nothing shows it, or some things show one and some the other.
func (c Control) ReadsBefore(readings []Reading) (before, proven bool) {
	votes := [2]int{}
	for side := White; side <= Black; side++ {
		own := c.For(side)
		own.Reads = Reads{}
		granted := own.Start()
		for i := int(side); i < len(readings); i += 2 {
			move := i/2 + 1
			b, weight := own.readsBefore(granted, move, readings[i])
			votes[index(b)] += weight
			granted = within(granted + own.grants(move))
		}
	}
	switch {
	case votes[0] > 0 && votes[1] == 0:
		return false, true
	case votes[0] == 0 && votes[1] >= beforeLeast:
		return true, true
	}
	return false, false
}

// beforeLeast is how many readings below an increment show that clocks are read before
// it: a single wrong one must not change all the others. What emt or egt say counts as
// much as so many.
const beforeLeast = 3

func index(b bool) int {
	if b {
		return 1
	}
	return 0
}

// readsBefore says what one reading shows, with what was granted before the move, and
// how much that counts.
func (c Control) readsBefore(granted time.Duration, move int, r Reading) (before bool, weight int) {
	inc := c.Increment(move)
	if !c.Known() || inc == 0 || !r.Left.OK || c.Period(move).Kind == KindSandclock {
		return false, 0
	}
	left := shown(r.Left.D)
	switch {
	case left > granted+rounding:
		return false, beforeLeast
	case left == 0:
		return false, 0 // a clock that lost its board shows that too
	case left < inc-rounding:
		return true, 1
	case move == 1 && left == c.Start(), c.Delay.granted() > 0:
		return false, 0
	}
	used := r.Total
	if move == 1 && !used.OK {
		used = r.Spent
	}
	if !used.OK || inc <= 2*contradiction {
		return false, 0
	}
	asBefore := (granted - left - within(used.D)).Abs() <= contradiction
	asAfter := (granted + c.grants(move) - left - within(used.D)).Abs() <= contradiction
	if asBefore == asAfter {
		return false, 0
	}
	return asBefore, beforeLeast
}
