package prompt

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
)

// nearness says how a rounded figure stands to the exact one.
type nearness uint8

const (
	exactly nearness = iota
	about            // near it, on either side
	over             // less than the exact one
)

// length is a length of time as people say it: in seconds, or in half minutes.
type length struct {
	near    nearness
	seconds int
	halves  int // 0: it is of seconds
}

// near is how far a figure may be from a round one and still be said as it.
const near = 5 // seconds

// rounded rounds by the second only when there are few of them, to five seconds up to a
// minute, to the half minute beyond. What is near such a figure is said to be about it,
// what lies between is over it.
func rounded(d time.Duration) length {
	seconds := max(0, int(d.Round(time.Second)/time.Second))
	switch {
	case seconds <= 20 || seconds < 55 && seconds%5 == 0:
		return length{seconds: seconds}
	case seconds < 55:
		return length{near: about, seconds: (seconds + 2) / 5 * 5}
	}
	l := length{near: about, halves: (seconds + near) / 30}
	switch off := seconds - l.halves*30; {
	case off == 0:
		l.near = exactly
	case off > near:
		l.near = over
	}
	return l
}

// limit rounds a time that somebody has less of. What people do not say is rounded up, so
// that it is still true.
func limit(d time.Duration) length {
	step := time.Second
	switch {
	case d > time.Minute:
		step = 30 * time.Second
	case d > 20*time.Second:
		step = 5 * time.Second
	}
	return rounded((d + step - 1).Truncate(step))
}

// atLeast rounds a time down to one that is said as it is: to ten seconds up to a minute, to the half
// minute beyond.
func atLeast(d time.Duration) time.Duration {
	if d < time.Minute {
		return d.Truncate(10 * time.Second)
	}
	return d.Truncate(30 * time.Second)
}

// roundedCount rounds a number above twenty: as it is up to a hundred, and rounded down
// beyond, in units of one, a thousand or a million.
func roundedCount(n int) (near nearness, count, unit int) {
	step, unit := 1, 1
	switch {
	case n < 100:
	case n < 1000:
		step = 50
	case n < 10_000:
		step = 500
	case n < 1_000_000:
		step, unit = 1000, 1000
	default:
		step, unit = 1_000_000, 1_000_000
	}
	if n%step != 0 {
		near = over
	}
	return near, n / step * step / unit, unit
}

// figure writes a time in an evidence: "40 s", "2:40".
func figure(d time.Duration) string {
	if d < time.Minute {
		return fmt.Sprintf("%d s", d/time.Second)
	}
	return clock.Format(d)
}

// pawnFigure writes hundredths of a pawn in an evidence: "+1.35", "−0.40", "0.00".
func pawnFigure(centipawns int) string {
	sign := "+"
	switch {
	case centipawns == 0:
		sign = ""
	case centipawns < 0:
		sign, centipawns = "−", -centipawns
	}
	return fmt.Sprintf("%s%d.%02d", sign, centipawns/100, centipawns%100)
}
