package pgn

import "strings"

// addComment hangs a comment on the last move, or on the line before its first.
// Empty ones say nothing and are left out.
func (r *reader) addComment(text string, commands []Command) {
	l := r.tree.line()
	if r.tree.skip > 0 || l.full || text == "" && len(commands) == 0 {
		return
	}
	to := &l.comments
	if m := l.last(); m != nil {
		to = &r.notesOf(m).Comments
	}
	if n := len(*to); r.noteRoom(n, r.pos) {
		*to = r.comments.longer(*to)
		c := &(*to)[n]
		c.Text, c.Commands = text, commands
	}
}

// beginComment lets a game begin with a comment. Behind a result a comment still
// belongs to the game before.
func (r *reader) beginComment(at int) {
	if r.state == between {
		r.begin(at)
	}
}

// braceComment takes a comment in braces. Without a closing brace it extends to
// the next line that begins a tag pair, so that the next game is not lost.
func (r *reader) braceComment() {
	at := r.pos
	r.beginComment(at)
	r.lineOf(at)
	body, closed := r.braceBody()
	if !closed {
		r.fault(FaultUnclosedComment, at, r.text[at:r.pos])
	}
	r.addComment(r.comment(body, at+1))
}

// braceWindow is how far the first search for a brace looks; each further one
// looks twice as far. So a comment never closed costs no search to the text's end.
const braceWindow = 256

// braceBody returns the comment that begins at pos, in the current line, and moves
// pos behind it.
func (r *reader) braceBody() (body string, closed bool) {
	s, from := r.text, r.pos+1
	for i, window := from, braceWindow; ; window *= 2 {
		end := min(i+window, len(s))
		n := strings.IndexByte(s[i:end], '}')
		if n >= 0 {
			end = i + n
		}
		if end > r.same {
			if tag := tagLine(s, i, end); tag >= 0 {
				r.pos = tag
				return s[from:tag], false
			}
		}
		if n >= 0 {
			r.pos = end + 1
			return s[from:end], true
		}
		if i = end; i == len(s) {
			r.pos = i
			return s[from:], false
		}
	}
}

// tagLine returns the offset of the first line in s[i:end] that begins a tag pair,
// or -1. Another character stands before i.
func tagLine(s string, i, end int) int {
	for ; ; i++ {
		n := strings.IndexByte(s[i:end], '[')
		if n < 0 {
			return -1
		}
		if i += n; isLineEnd(s[i-1]) && isTag(s, i) {
			return i
		}
	}
}

// lineComment takes a comment from ";" to the end of the line (PGN 5).
func (r *reader) lineComment() {
	at := r.pos
	r.beginComment(at)
	r.pos = lineEnd(r.text, at)
	r.addComment(r.comment(r.text[at+1:r.pos], at+1))
}

// comment takes the commands out of a comment's body, which begins at offset at.
func (r *reader) comment(body string, at int) (text string, commands []Command) {
	if len(body) > r.lim.CommentBytes {
		body = cut(body, r.lim.CommentBytes)
		r.fault(FaultLimitComment, at, body)
	}
	next := openBracket(body, 0)
	if next < 0 {
		return r.texts.fold(body), nil
	}
	return r.takeCommands(body, next, at)
}

// takeCommands reads a body whose first "[" stands at next.
func (r *reader) takeCommands(body string, next, at int) (text string, commands []Command) {
	p := commandParser{body: body, stock: r.stock}
	rest, from := remains{buf: r.buf[:0]}, 0
	for next >= 0 {
		name, operands, end, verdict := p.parse(next)
		switch verdict {
		case commandGood:
			commands = r.commands.longer(commands)
			c := &commands[len(commands)-1]
			c.Name, c.Operands = name, operands
			rest.add(body[from:next])
			from = end
		case commandBad:
			r.fault(FaultBadCommand, at+next, body[next:end])
		}
		next = openBracket(body, end)
	}
	rest.add(body[from:])
	r.buf = rest.buf
	return rest.text(&r.texts), commands
}

// openBracket returns the offset of the first "[" from offset from on, or -1. Mostly
// it comes next.
func openBracket(s string, from int) int {
	if from = skipSpace(s, from); from < len(s) && s[from] == '[' {
		return from
	}
	return indexFrom(s, '[', from)
}

// indexFrom is strings.IndexByte from offset from on.
func indexFrom(s string, c byte, from int) int {
	n := strings.IndexByte(s[from:], c)
	if n < 0 {
		return n
	}
	return from + n
}
