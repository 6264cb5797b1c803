package pgn

import "strings"

// lines numbers the lines of a text, for offsets that only grow. LF, CR and CRLF
// each end a line.
type lines struct {
	of      string
	number  int // of the line with offset counted
	counted int // offset up to which line ends are counted
	same    int // offsets up to this one are in that line too
}

func newLines(text string, first int) lines {
	return lines{of: text, number: first, same: sameLine(text, 0)}
}

// lineOf returns the number of the line with offset at, from the first line on.
func (l *lines) lineOf(at int) int {
	if at > l.same {
		l.countTo(at)
	}
	return l.number
}

func (l *lines) countTo(at int) {
	span := l.of[l.counted:at]
	if at < len(l.of) && l.of[at] == '\n' {
		span = strings.TrimSuffix(span, "\r") // it ends the line at offset at
	}
	l.number += lineEnds(span)
	l.counted, l.same = at, sameLine(l.of, at)
}

// lineEnds counts the line ends in s.
func lineEnds(s string) int {
	n := strings.Count(s, "\n")
	if strings.IndexByte(s, '\r') >= 0 {
		n += strings.Count(s, "\r") - strings.Count(s, "\r\n")
	}
	return n
}

// lineWindow is how far sameLine looks: in a long line it would otherwise look to the
// end again for every game.
const lineWindow = 512

// sameLine returns an offset up to which the line of offset i goes, if not further:
// that of the last byte of its end, or as far as it looks.
func sameLine(s string, i int) int {
	w := s[i:min(i+lineWindow, len(s))]
	lf := strings.IndexByte(w, '\n')
	if lf >= 0 {
		w = w[:lf]
	}
	cr := strings.IndexByte(w, '\r')
	switch {
	case cr >= 0 && i+cr+1 < len(s) && s[i+cr+1] == '\n':
		return i + cr + 1
	case cr >= 0:
		return i + cr
	}
	return i + len(w) // a line feed, or as far as it looked
}
