package pgn

import (
	"strconv"
	"strings"
)

// ply says which move comes next: its number and whether Black plays it.
type ply struct {
	number int
	black  bool
}

func (p ply) next() ply {
	if p.black {
		p.number++
	}
	p.black = !p.black
	return p
}

// firstPly returns the number and side of the first move, from the FEN a game
// was set up with; without one, or when it says nothing, White's first.
func firstPly(fen string) (number int, black bool) {
	fields := strings.Fields(fen)
	number = 1
	if len(fields) > 5 {
		if n, err := strconv.Atoi(fields[5]); err == nil && n > 0 {
			number = n
		}
	}
	return number, len(fields) > 1 && fields[1] == "b"
}

// line writes the moves of a line. A black move is numbered at the start and
// behind comments and variations (PGN 8.2.2.2).
func (t *writer) line(moves []Move, at ply) {
	number := true
	for i := range moves {
		m := &moves[i]
		switch {
		case !at.black:
			t.word(strconv.Itoa(at.number) + ".")
		case number:
			t.word(strconv.Itoa(at.number) + "...")
		}
		if !isMove(m.SAN) {
			t.fail("move", m.SAN)
		}
		t.word(m.SAN)
		notes := m.notes()
		t.notes(&notes, at)
		number = len(notes.Comments)+len(notes.Variations) > 0
		at = at.next()
	}
}

// notes writes what hangs on a move.
func (t *writer) notes(n *Notes, at ply) {
	for _, glyph := range n.NAGs {
		if glyph < 0 || glyph > 255 {
			t.fail("glyph", strconv.Itoa(glyph))
		}
		t.word("$" + strconv.Itoa(glyph))
	}
	t.comments(n.Comments)
	for _, v := range n.Variations {
		t.open("(")
		t.comments(v.Comments)
		t.line(v.Moves, at)
		t.close(")")
	}
}

// comments writes each comment in braces, its commands in front.
func (t *writer) comments(comments []Comment) {
	for _, c := range comments {
		text := commentText(c)
		if text == "" {
			continue
		}
		t.open("{")
		for _, word := range commentWords(text) {
			t.word(word)
		}
		t.close("}")
		for _, cmd := range c.Commands {
			if !isCommandName(cmd.Name) {
				t.fail("command name", cmd.Name)
			}
		}
	}
}

// commentText returns what stands between the braces.
func commentText(c Comment) string {
	var b strings.Builder
	for _, cmd := range c.Commands {
		b.WriteString("[%" + cmd.Name)
		for i, op := range cmd.Operands {
			b.WriteByte(" ,"[min(i, 1)])
			b.WriteString(operandText(op))
		}
		b.WriteString("] ")
	}
	b.WriteString(defused(c.Text))
	return strings.ReplaceAll(fold(b.String()), "}", ")")
}

// operandText quotes an operand where it must be.
func operandText(s string) string {
	s = fold(s)
	if s != "" && s[0] != '"' && !strings.ContainsAny(s, ",]") && defused(s) == s {
		return s
	}
	return `"` + strings.ReplaceAll(s, `"`, "'") + `"`
}

// commentWords splits a comment where its lines may break: never so that a line
// begins with what elsewhere begins a tag pair or an escape line, not before a command that
// fits on the line of the word before, which some readers take for a tag pair, and not inside
// a command that fits on a line: many readers know it only unbroken.
func commentWords(text string) []string {
	var words []string
	for _, w := range strings.Split(text, " ") {
		tagLike := strings.HasPrefix(w, "[") && !strings.HasPrefix(w, "[%")
		if n := len(words) - 1; n >= 0 && (tagLike || strings.HasPrefix(w, "%") || goesOn(words[n], w) || joins(words[n], w)) {
			words[n] += " " + w
			continue
		}
		words = append(words, w)
	}
	return words
}

// joins reports whether a command stays behind the word before it.
func joins(last, word string) bool {
	return strings.HasPrefix(word, "[%") && len(last)+len(" [%clk 0:00:00]") < exportWidth-len("{}")
}

// goesOn reports whether word belongs to the command that last has begun, and
// still fits on its line.
func goesOn(last, word string) bool {
	at := strings.LastIndex(last, "[%")
	return at >= 0 && !strings.Contains(last[at:], "]") && len(last)+1+len(word) < exportWidth-len("{}")
}
