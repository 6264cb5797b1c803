package pgn

import "strings"

// remains gathers what stands of a comment outside its commands.
type remains struct {
	first string // the first piece
	buf   []byte // all pieces, once there are two
}

func (m *remains) add(s string) {
	switch s = trimSpace(s); {
	case s == "":
		return
	case m.first == "":
		m.first = s
		return
	case len(m.buf) == 0:
		m.buf = append(m.buf, m.first...)
	}
	m.buf = append(append(m.buf, ' '), s...)
}

// text returns what was gathered, folded and defused.
func (m *remains) text(t *texts) string {
	if len(m.buf) == 0 {
		if strings.IndexByte(m.first, '[') < 0 {
			return t.fold(m.first)
		}
		m.buf = append(m.buf, m.first...)
	}
	defuse(m.buf)
	return t.foldBytes(m.buf)
}

// defuse unmakes what would look like the beginning of a command, so that the text
// reads back as text.
func defuse(b []byte) {
	open := -1
	for i, c := range b {
		switch {
		case c == '[':
			open = i
		case c == '%' && open >= 0:
			b[open] = '('
		case !isSpace(c):
			open = -1
		}
	}
}

// defused returns the text folded and defused.
func defused(s string) string {
	b := []byte(s)
	defuse(b)
	return fold(string(b))
}
