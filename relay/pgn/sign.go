package pgn

import "strings"

// sign takes a token that begins with a sign, brackets of tags and comments aside.
func (r *reader) sign(c byte) {
	switch c {
	case ';':
		r.lineComment()
	case '(':
		r.bracket()
	case ')':
		r.closeVariation()
	case '$':
		r.glyph()
	case '!', '?':
		r.suffix()
	case '*':
		r.result(unknown, r.pos, r.pos+1)
	case '%':
		r.percent()
	case '-':
		r.dash()
	default:
		r.badRun()
	}
}

// bracket takes "(=)", the trade's sign for an offered draw, as a comment, since
// the standard has no glyph for it; any other "(" opens a variation.
func (r *reader) bracket() {
	if !strings.HasPrefix(r.text[r.pos:], "(=)") {
		r.openVariation()
		return
	}
	r.beginComment(r.pos)
	r.pos += 3
	r.addComment("(=)", nil)
}

// glyph takes "$" and its number, 0 to 255 (PGN 8.2.4).
func (r *reader) glyph() {
	i := r.pos
	j, n := i+1, 0
	for j < len(r.text) && kinds[r.text[j]] == kindDigit {
		n = min(n*10+int(r.text[j]-'0'), 1000)
		j++
	}
	r.pos = j
	if j == i+1 || n > 255 {
		r.fault(FaultBadToken, i, r.text[i:j])
		return
	}
	r.addGlyph(n, i, j)
}

// suffixGlyph returns the glyph for what may follow a move (PGN 8.2.3.8).
func suffixGlyph(s string) int {
	switch s {
	case "!":
		return 1
	case "?":
		return 2
	case "!!":
		return 3
	case "??":
		return 4
	case "!?":
		return 5
	}
	return 6 // ?!
}

// suffix takes ! and ? signs. Of a longer run the first two count.
func (r *reader) suffix() {
	i := r.pos
	j := i
	for j < len(r.text) && (r.text[j] == '!' || r.text[j] == '?') {
		j++
	}
	r.pos = j
	n := min(j-i, 2)
	r.addGlyph(suffixGlyph(r.text[i:i+n]), i, j)
	if j > i+n {
		r.fault(FaultBadToken, i, r.text[i:j])
	}
}

// addGlyph hangs a glyph, written at text[at:end], on the last move.
func (r *reader) addGlyph(n, at, end int) {
	l := r.tree.line()
	m := l.last()
	switch {
	case r.tree.skip > 0 || l.full:
	case m == nil || r.state == ended:
		r.fault(FaultBadToken, at, r.text[at:end])
	case r.noteRoom(len(m.notes().NAGs), at):
		notes := r.notesOf(m)
		notes.NAGs = r.glyphs.longer(notes.NAGs)
		notes.NAGs[len(notes.NAGs)-1] = n
	}
}

// percent takes an escape line (PGN 6), or a sign out of place.
func (r *reader) percent() {
	if !atLineStart(r.text, r.pos) {
		r.badRun()
		return
	}
	r.pos = lineEnd(r.text, r.pos)
}

// dash takes the null move "--".
func (r *reader) dash() {
	end := wordEnd(r.text, r.pos)
	if r.text[r.pos:end] == "--" {
		r.addMove("--", r.pos, end)
		return
	}
	r.badRun()
}

// badRun leaves out signs that mean nothing, up to white space or a bracket.
func (r *reader) badRun() {
	i := r.pos
	j := i + 1
	for j < len(r.text) && !isSpace(r.text[j]) && strings.IndexByte("{}()[];$", r.text[j]) < 0 {
		j++
	}
	r.pos = j
	r.fault(FaultBadToken, i, r.text[i:j])
}
