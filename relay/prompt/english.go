package prompt

import (
	"fmt"
	"strings"
	"time"

	"clocktell/relay/clock"
)

// english has all texts in English.
type english struct{}

func (english) Code() string { return "en" }

func (english) Colour(side clock.Side) string {
	if side == clock.White {
		return "White"
	}
	return "Black"
}

var englishNumbers = []string{
	"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
	"fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
}

var englishTens = []string{"", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"}

func (english) Number(n int) string {
	switch {
	case n >= 0 && n < len(englishNumbers):
		return englishNumbers[n]
	case n < 0 || n > 99:
		return fmt.Sprint(n)
	case n%10 == 0:
		return englishTens[n/10]
	}
	return englishTens[n/10] + "-" + englishNumbers[n%10]
}

func (e english) Count(n int) string {
	if n <= 20 {
		return e.Number(n)
	}
	near, count, unit := roundedCount(n)
	return englishNear[near] + fmt.Sprint(count) + map[int]string{1: "", 1000: " thousand", 1_000_000: " million"}[unit]
}

var englishNear = [...]string{exactly: "", about: "about ", over: "over "}

func (e english) Span(d time.Duration) string { return e.length(rounded(d)) }

func (e english) length(l length) string {
	said := ""
	switch {
	case l.halves == 2:
		said = "a minute"
	case l.halves == 3:
		said = "a minute and a half"
	case l.halves%2 == 1:
		said = e.Number(l.halves/2) + " and a half minutes"
	case l.halves > 0:
		said = e.Number(l.halves/2) + " minutes"
	case l.seconds == 1:
		said = "one second"
	default:
		said = e.Number(l.seconds) + " seconds"
	}
	return englishNear[l.near] + said
}

// last says a length of time behind "the last": "minute", "twenty seconds".
func (e english) last(d time.Duration) string {
	l := limit(d)
	if l == (length{seconds: 1}) {
		return "second"
	}
	return strings.TrimPrefix(e.length(l), "a ")
}

var englishMen = map[byte]string{'K': "king", 'Q': "queen", 'R': "rook", 'B': "bishop", 'N': "knight"}

// Spoken: "knight f3", "bishop takes c6", "castles short", "e takes d5".
func (english) Spoken(san string) string {
	m := apart(san)
	end := some(m.check, "check") + some(m.mate, "mate")
	switch {
	case m.none:
		return ""
	case m.castles == "O-O":
		return aloud("castles short", end)
	case m.castles != "":
		return aloud("castles long", end)
	}
	return aloud(englishMen[m.man], m.from, some(m.takes, "takes"), m.to, some(m.makes != 0, "makes a "+englishMen[m.makes]), end)
}

func (english) Source(board int, white, black string, move int) string {
	return fmt.Sprintf("board %d · %s – %s", board, white, black) + some(move > 0, fmt.Sprintf(" · move %d", move))
}
