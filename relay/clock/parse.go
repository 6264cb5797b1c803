package clock

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Limits of what ParseControl takes for a time control.
const (
	maxPeriods = 16      // fields of one tag
	maxMoves   = 1000    // moves of one period
	maxSeconds = 1000000 // seconds of one period, about eleven days
)

// ParseControl reads the value of a TimeControl tag (PGN 1994, 9.6.1): fields
// joined by colons. Beyond that text it takes an increment in a period of moves,
// "40/5400+30". The numbers count, not any gloss on them: "4500+60" is 75 minutes.
// An error names the field and what would be right; the Control is then unknown.
func ParseControl(text string) (Control, error) {
	fields := strings.Split(strings.TrimSpace(text), ":")
	if len(fields) > maxPeriods {
		return Control{}, fmt.Errorf("time control %q: %d fields, at most %d are taken", clip(text), len(fields), maxPeriods)
	}
	var c Control
	for i, field := range fields {
		p, err := parsePeriod(strings.TrimSpace(field))
		if err == nil && p.Moves == 0 && p.Kind.timed() && i < len(fields)-1 {
			err = errors.New("lasts to the end of the game, so it must be the last field; before it write moves/seconds")
		}
		if err != nil {
			return Control{}, fmt.Errorf("time control %q: field %d %q: %w", clip(text), i+1, clip(field), err)
		}
		c.Periods = append(c.Periods, p)
	}
	return c, nil
}

// clip shortens text for an error.
func clip(text string) string {
	const longest = 60
	if len(text) > longest {
		return text[:longest] + "…"
	}
	return text
}

// parsePeriod reads one field.
func parsePeriod(field string) (Period, error) {
	switch {
	case field == "":
		return Period{}, errors.New(`is empty; write "?" for unknown or seconds such as "600+5"`)
	case field == "?":
		return Period{Kind: KindUnknown}, nil
	case field == "-":
		return Period{Kind: KindNone}, nil
	case field[0] == '*':
		base, err := seconds(field[1:], 1)
		return Period{Kind: KindSandclock, Base: base}, err
	case strings.Contains(field, "/"):
		return parseMoves(field)
	}
	return parseRest(field)
}

// parseMoves reads "M/S" and the extension "M/S+I".
func parseMoves(field string) (Period, error) {
	before, after, _ := strings.Cut(field, "/")
	moves, err := number(before, maxMoves)
	if err != nil || moves == 0 {
		return Period{}, fmt.Errorf(`moves %q must be a number from 1 to %d, as in "40/9000"`, clip(before), maxMoves)
	}
	p, err := parseRest(after)
	p.Kind, p.Moves = KindMoves, moves
	return p, err
}

// parseRest reads "S" and "S+I". No base time is fine if there is an increment.
func parseRest(field string) (Period, error) {
	before, after, plus := strings.Cut(field, "+")
	if !plus {
		base, err := seconds(before, 1)
		return Period{Kind: KindSuddenDeath, Base: base}, err
	}
	inc, err := seconds(after, 0)
	if err != nil {
		return Period{}, fmt.Errorf("increment %w", err)
	}
	least := 0
	if inc == 0 {
		least = 1
	}
	base, err := seconds(before, least)
	return Period{Kind: KindIncrement, Base: base, Increment: inc}, err
}

// seconds reads a whole number of seconds.
func seconds(text string, least int) (time.Duration, error) {
	n, err := number(text, maxSeconds)
	if err != nil || n < least {
		return 0, fmt.Errorf(`seconds %q must be a whole number from %d to %d, as in "300" or "600+5"`, clip(text), least, maxSeconds)
	}
	return time.Duration(n) * time.Second, nil
}

// number reads decimal digits and nothing else, no sign and no spaces.
func number(text string, most int) (int, error) {
	if text == "" || strings.Trim(text, "0123456789") != "" {
		return 0, strconv.ErrSyntax
	}
	n, err := strconv.Atoi(text)
	if err != nil || n > most {
		return 0, strconv.ErrRange
	}
	return n, nil
}
