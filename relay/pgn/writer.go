package pgn

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// exportWidth is the number of characters a line of movetext stays below.
const exportWidth = 80

// writer fills lines of movetext with words.
type writer struct {
	out    strings.Builder
	column int    // characters in the current line
	stuck  string // opening signs that belong to the next word
	held   string // the last word, which a closing sign may still join
	err    error  // the first word that cannot be written
}

func (t *writer) fail(what, word string) {
	if t.err == nil {
		t.err = fmt.Errorf("%w: %q is no %s", ErrWrite, word, what)
	}
}

// open puts a sign directly before the next word.
func (t *writer) open(sign string) { t.stuck += sign }

// close puts a sign directly behind the last word.
func (t *writer) close(sign string) {
	if t.stuck != "" {
		t.word("")
	}
	t.held += sign
}

// word writes the word before and holds this one back.
func (t *writer) word(w string) {
	t.flush()
	t.held = t.stuck + w
	t.stuck = ""
}

func (t *writer) flush() {
	if t.held == "" {
		return
	}
	n := utf8.RuneCountInString(t.held)
	switch {
	case t.column == 0:
		t.column = n
	case t.column+1+n < exportWidth:
		t.out.WriteByte(' ')
		t.column += 1 + n
	default:
		t.out.WriteByte('\n')
		t.column = n
	}
	t.out.WriteString(t.held)
	t.held = ""
}
