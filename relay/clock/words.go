package clock

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Format returns d for use in words, whole seconds cut off: "9:58", "1:02:03".
// What is below zero is "0:00".
func Format(d time.Duration) string {
	total := int64(max(d, 0) / time.Second)
	h, m, s := total/3600, total/60%60, total%60
	out := make([]byte, 0, 8) // by hand: every running clock is written a few times a second
	if h > 0 {
		out = append(strconv.AppendInt(out, h, 10), ':', '0'+byte(m/10))
		m %= 10
	}
	out = append(strconv.AppendInt(out, m, 10), ':', '0'+byte(s/10), '0'+byte(s%10))
	return string(out)
}

// String returns the control in words: "10 min + 5 s", "40 moves in 120 min, then
// 60 min". It is "" when the control is unknown.
func (c Control) String() string {
	var words []string
	for _, p := range c.Periods {
		words = append(words, p.String())
	}
	return strings.Join(words, ", then ") + c.besides()
}

// besides returns in words what no TimeControl tag says.
func (c Control) besides() string {
	if !c.Known() {
		return ""
	}
	words := ""
	if d := c.Delay.granted(); d > 0 {
		words += fmt.Sprintf(", %s delay of %s", c.Delay.Kind, inSeconds(d))
	}
	for side := White; side <= Black; side++ {
		if start := c.Starts[side]; start.OK {
			words += fmt.Sprintf(", %s from %s", side, Format(start.D))
		}
	}
	if c.Done > 0 {
		words += fmt.Sprintf(", after %d moves", c.Done)
	}
	return words
}

// String returns the period in words, "" when it is unknown.
func (p Period) String() string {
	switch p.Kind {
	case KindUnknown:
		return ""
	case KindNone:
		return "no time limit"
	case KindSandclock:
		return "hourglass of " + length(p.Base)
	}
	words := length(p.Base)
	if p.Moves > 0 {
		words = fmt.Sprintf("%d moves in %s", p.Moves, words)
	}
	if p.Increment > 0 {
		words += " + " + inSeconds(p.Increment)
	}
	return words
}

// length returns a base time in minutes, and in seconds where minutes do not do.
func length(d time.Duration) string {
	if d == 0 || d%time.Minute != 0 {
		return inSeconds(d)
	}
	return fmt.Sprintf("%d min", d/time.Minute)
}

// inSeconds returns seconds, the unit in which increments are named.
func inSeconds(d time.Duration) string {
	return fmt.Sprintf("%d s", d/time.Second)
}
