package tell

import (
	"math"
	"strconv"
	"time"

	"clocktell/relay/clock"
)

// span returns a time spent as one says it: "40 s", "2:40".
func span(d time.Duration) string {
	if d < time.Minute {
		return strconv.Itoa(int(d/time.Second)) + " s"
	}
	return clock.Format(d)
}

// times returns how many times a is b, in words: "four times", "over ten times".
// It is "" below one and a half times, and for an a of seconds, where a multiple
// sounds like more than it is.
func times(a, b time.Duration) string {
	const least = 5 * time.Second
	ratio := a.Seconds() / max(1, b.Seconds())
	words := []string{"", "", "twice", "three times", "four times", "five times", "six times",
		"seven times", "eight times", "nine times", "ten times"}
	n := int(math.Round(min(ratio, 100)))
	switch {
	case ratio < 1.5 || a < least:
		return ""
	case n < len(words):
		return words[n]
	}
	return "over ten times"
}

// moves returns a number of moves: "1 move", "11 moves".
func moves(n int) string {
	if n == 1 {
		return "1 move"
	}
	return strconv.Itoa(n) + " moves"
}

// inHundred returns a probability as whole chances in a hundred, never 0 or 100,
// since the model is never that sure.
func inHundred(p float64) int {
	return min(max(int(math.Round(p*100)), 1), 99)
}

// onReply names a move by what it replies to: "on a recapture".
func (r Reply) onReply() string {
	switch r {
	case Recapture:
		return "on a recapture"
	case EvadesCheck:
		return "to get out of check"
	case AfterCapture:
		return "after a capture"
	}
	return "on a quiet move"
}
