package clock

import (
	"errors"
	"fmt"
	"strings"
	"time"
)

// maxHours bounds a reading; more is not a chess clock.
const maxHours = 10000

// Value is a duration that may be missing.
type Value struct {
	D  time.Duration
	OK bool
}

// Reading is what a feed says behind one ply, each part with the embedded command
// it comes from (PGN supplement, draft of 2001).
type Reading struct {
	Left  Value // clk: on the mover's clock after the move
	Spent Value // emt: used for this move
	Total Value // egt: used by the mover since the game began
}

// ParseReading reads the operand of such a command: h:mm:ss or m:ss, with hours or
// minutes of any length in front and an optional fraction behind. Two digits are
// asked of every later field, so that a text cut short is not taken for a time.
func ParseReading(text string) (time.Duration, error) {
	d, err := parseReading(strings.TrimSpace(text))
	if err != nil {
		return 0, fmt.Errorf("clock reading %q: %w", clip(text), err)
	}
	return d, nil
}

func parseReading(text string) (time.Duration, error) {
	if strings.HasPrefix(text, "-") {
		return 0, errors.New("is negative; a clock shows 0:00:00 at the least")
	}
	whole, fraction, dot := strings.Cut(text, ".")
	fields := strings.Split(whole, ":")
	if len(fields) != 2 && len(fields) != 3 {
		return 0, errors.New("must be h:mm:ss or m:ss")
	}
	total := 0
	for i, field := range fields {
		n, err := number(field, maxHours)
		if err != nil || (i > 0 && (len(field) != 2 || n > 59)) {
			return 0, fmt.Errorf("field %d %q must be a number, behind the first colon two digits up to 59", i+1, clip(field))
		}
		total = total*60 + n
	}
	part, err := parseFraction(fraction, dot)
	return time.Duration(total)*time.Second + part, err
}

// parseFraction reads the digits behind the point; what is finer than a
// nanosecond is cut off.
func parseFraction(digits string, dot bool) (time.Duration, error) {
	if !dot {
		return 0, nil
	}
	if digits == "" || strings.Trim(digits, "0123456789") != "" {
		return 0, fmt.Errorf("fraction %q must be digits", clip(digits))
	}
	nanos := time.Duration(0)
	for i := range 9 {
		nanos *= 10
		if i < len(digits) {
			nanos += time.Duration(digits[i] - '0')
		}
	}
	return nanos, nil
}
