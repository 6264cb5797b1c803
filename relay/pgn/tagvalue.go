package pgn

import "strings"

// tagValue reads a tag's value from behind its first quotation mark and moves
// pos behind the pair. A string ends with its line at the latest; one that goes
// on in the next line and is closed there is taken whole, with the fault.
func (r *reader) tagValue(from int) (value, reason string, faulty bool) {
	s := r.text
	quote, escaped, plain := scanString(s, from)
	if quote == len(s) || isLineEnd(s[quote]) {
		return r.brokenValue(from, quote)
	}
	next := skipSpace(s, quote+1)
	if next < len(s) && s[next] == ']' {
		r.pos = next + 1
		return tidyValue(s[from:quote], escaped, plain), "", false
	}
	if next == len(s) || s[next] == '[' || lineEnd(s[:next], quote) < next {
		r.pos = quote + 1
		return tidyValue(s[from:quote], escaped, plain), FaultUnclosedTag, true
	}
	return r.strayQuotes(from, quote)
}

// stringStops has the characters that do not simply stand in a string.
var stringStops = func() (t [256]bool) {
	for c := range byte(' ') {
		t[c] = true
	}
	t['"'], t['\\'] = true, true
	return t
}()

// scanString returns the offset of the closing quote, or of the line's or text's
// end when there is none; whether escapes occur; whether no control characters do.
func scanString(s string, i int) (end int, escaped, plain bool) {
	plain = true
	for ; i < len(s); i++ {
		if !stringStops[s[i]] {
			continue
		}
		switch c := s[i]; {
		case c == '"' || isLineEnd(c):
			return i, escaped, plain
		case c < ' ':
			plain = false
		case i+1 < len(s) && (s[i+1] == '"' || s[i+1] == '\\'):
			escaped = true
			i++
		}
	}
	return i, escaped, plain
}

// brokenValue takes a string that does not close before the line end at end.
func (r *reader) brokenValue(from, end int) (value, reason string, faulty bool) {
	value = r.text[from:end]
	r.pos = end
	if next, past, ok := r.restOfValue(end); ok {
		value += " " + next
		r.pos = past
	} else {
		value = strings.TrimRight(value, "] \t\x00")
	}
	return tidyValue(value, true, false), FaultUnclosedTag, true
}

// restOfValue looks for the rest of a broken string in the line behind end: a
// line that begins no tag pair itself and ends one.
func (r *reader) restOfValue(end int) (rest string, past int, ok bool) {
	i := end
	if strings.HasPrefix(r.text[i:], "\r\n") {
		i++
	}
	if i = i + 1; i >= len(r.text) || r.text[i] == '[' {
		return "", 0, false
	}
	past = lineEnd(r.text, i)
	line := strings.TrimRight(r.text[i:past], " \t")
	if !strings.HasSuffix(line, `"]`) || strings.Count(line, `"`) != 1 {
		return "", 0, false
	}
	return strings.TrimSuffix(line, `"]`), past, true
}

// strayQuotes takes a value with quotation marks inside that are not escaped:
// it ends at the first one with a bracket behind it.
func (r *reader) strayQuotes(from, quote int) (value, reason string, faulty bool) {
	stop := lineEnd(r.text, quote)
	for q := quote; q >= 0; q = indexFrom(r.text[:stop], '"', q+1) {
		next := skipSpace(r.text[:stop], q+1)
		if next < stop && r.text[next] == ']' {
			r.pos = next + 1
			return tidyValue(r.text[from:q], true, false), FaultBadToken, true
		}
	}
	r.pos = stop
	return tidyValue(r.text[from:quote], true, false), FaultUnclosedTag, true
}

// tidyValue resolves the escapes \" and \\ and makes control characters, which
// a string cannot hold, spaces.
func tidyValue(s string, escaped, plain bool) string {
	if !escaped && plain {
		return s
	}
	b := make([]byte, 0, len(s))
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c == '\\' && i+1 < len(s) && (s[i+1] == '"' || s[i+1] == '\\') {
			i++
			c = s[i]
		} else if c < ' ' {
			c = ' '
		}
		b = append(b, c)
	}
	return string(b)
}
