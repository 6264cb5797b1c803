package prompt

import (
	"fmt"
	"strings"
	"time"
)

var numbers = []string{
	"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
	"fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
}

var tens = []string{"", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"}

// Number writes the numbers up to ninety-nine as words and others as figures.
func Number(n int) string {
	switch {
	case n >= 0 && n < len(numbers):
		return numbers[n]
	case n < 0 || n > 99:
		return fmt.Sprint(n)
	case n%10 == 0:
		return tens[n/10]
	}
	return tens[n/10] + "-" + numbers[n%10]
}

// Span says a length of time the way people do: by the second only when there
// are few of them, to five seconds up to a minute, to the half minute beyond.
// What is near such a figure is said to be about it, what lies between is over it.
func Span(d time.Duration) string {
	seconds := int(d.Round(time.Second) / time.Second)
	switch {
	case seconds == 1:
		return "one second"
	case seconds <= 20:
		return Number(max(0, seconds)) + " seconds"
	case seconds < 55 && seconds%5 == 0:
		return Number(seconds) + " seconds"
	case seconds < 55:
		return "about " + Number((seconds+2)/5*5) + " seconds"
	}
	return minutes(seconds)
}

// Last says a length of time behind "the last": "minute", "twenty seconds". What people
// do not say is rounded up, so that whoever has less is still down to it.
func Last(d time.Duration) string {
	step := time.Second
	switch {
	case d > time.Minute:
		step = 30 * time.Second
	case d > 20*time.Second:
		step = 5 * time.Second
	}
	d = (d + step - 1).Truncate(step)
	if d == time.Second {
		return "second"
	}
	return strings.TrimPrefix(Span(d), "a ")
}

// near is how far a figure may be from a round one and still be said as it.
const near = 5 // seconds

func minutes(seconds int) string {
	halves := (seconds + near) / 30
	switch off := seconds - halves*30; {
	case off == 0:
		return halfMinutes(halves)
	case off > near:
		return "over " + halfMinutes(halves)
	}
	return "about " + halfMinutes(halves)
}

func halfMinutes(halves int) string {
	whole, half := halves/2, halves%2 == 1
	switch {
	case halves == 2:
		return "a minute"
	case halves == 3:
		return "a minute and a half"
	case half:
		return Number(whole) + " and a half minutes"
	}
	return Number(whole) + " minutes"
}
