package pgn

import "strings"

// lines counts the lines of a text, for offsets that only grow. LF, CR and CRLF
// each end a line.
type lines struct {
	of     string
	number int  // of the line that ends at newline
	next   int  // offset of that line's end, or len(of)
	hasCR  bool // otherwise a faster search does
}

func newLines(text string, first int) lines {
	l := lines{of: text, number: first, hasCR: strings.IndexByte(text, '\r') >= 0}
	l.next = l.endFrom(0)
	return l
}

// lineOf returns the number of the line with offset at, from the first line on.
func (l *lines) lineOf(at int) int {
	for at > l.next {
		l.number++
		l.next = l.endFrom(l.next + 1)
	}
	return l.number
}

// endFrom returns the offset of the last byte of the first line end from i on.
func (l *lines) endFrom(i int) int {
	if !l.hasCR {
		if n := strings.IndexByte(l.of[i:], '\n'); n >= 0 {
			return i + n
		}
		return len(l.of)
	}
	i = lineEnd(l.of, i)
	if i+1 < len(l.of) && l.of[i] == '\r' && l.of[i+1] == '\n' {
		i++
	}
	return i
}
