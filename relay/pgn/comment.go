package pgn

import "strings"

// notes hands out the small slices of comments and commands from larger blocks,
// since most have one element and a game has hundreds.
type notes struct {
	comments []Comment
	commands []Command
	operands []string
	buf      []byte
}

// noteBlock is the number of elements in a block.
const noteBlock = 256

// block returns s with room for some elements, on a new block when needed.
func block[T any](s []T) []T {
	if cap(s)-len(s) < 4 {
		return make([]T, 0, noteBlock)
	}
	return s
}

// one returns a slice of one comment that appends to a copy.
func (n *notes) one(c Comment) []Comment {
	n.comments = append(block(n.comments), c)
	k := len(n.comments)
	return n.comments[k-1 : k : k]
}

// addComment hangs a comment on the last move, or on the line before its first.
// Empty ones say nothing and are left out.
func (r *reader) addComment(c Comment) {
	if r.tree.skip > 0 || r.tree.line().full || c.Text == "" && len(c.Commands) == 0 {
		return
	}
	l := r.tree.line()
	to := &l.comments
	if m := l.last(); m != nil {
		to = &m.Comments
	}
	switch {
	case *to == nil:
		*to = r.notes.one(c)
	case r.noteRoom(len(*to), r.pos):
		*to = append(*to, c)
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
	body, closed := r.braceBody()
	if !closed {
		r.fault(FaultUnclosedComment, at, r.text[at:])
	}
	r.addComment(r.comment(body, at+1))
}

// braceBody returns the comment that begins at pos and moves pos behind it.
func (r *reader) braceBody() (body string, closed bool) {
	from := r.pos + 1
	if r.closingBrace < from {
		r.closingBrace = len(r.text)
		if n := strings.IndexByte(r.text[from:], '}'); n >= 0 {
			r.closingBrace = from + n
		}
	}
	end := r.closingBrace
	for i := from; ; i++ {
		n := strings.IndexByte(r.text[i:end], '[')
		if n < 0 {
			break
		}
		i += n
		if atLineStart(r.text, i) && r.isTag(i) {
			r.pos = i
			return r.text[from:i], false
		}
	}
	r.pos = min(end+1, len(r.text))
	return r.text[from:end], end < len(r.text)
}

// lineComment takes a comment from ";" to the end of the line (PGN 5).
func (r *reader) lineComment() {
	at := r.pos
	r.beginComment(at)
	r.pos = lineEnd(r.text, at)
	r.addComment(r.comment(r.text[at+1:r.pos], at+1))
}

// comment takes the commands out of a comment's body, which begins at offset at.
func (r *reader) comment(body string, at int) Comment {
	if len(body) > r.lim.CommentBytes {
		body = cut(body, r.lim.CommentBytes)
		r.fault(FaultLimitComment, at, body)
	}
	next := strings.IndexByte(body, '[')
	if next < 0 {
		return Comment{Text: fold(body)}
	}
	return r.takeCommands(body, next, at)
}

// takeCommands reads a body whose first "[" stands at next.
func (r *reader) takeCommands(body string, next, at int) Comment {
	p := commandParser{body: body}
	r.notes.commands = block(r.notes.commands)
	first, from := len(r.notes.commands), 0
	rest := r.notes.buf[:0]
	for next >= 0 {
		cmd, end, verdict := p.parse(next, &r.notes)
		switch verdict {
		case commandGood:
			r.notes.commands = append(r.notes.commands, cmd)
			rest = append(append(rest, body[from:next]...), ' ')
			from = end
		case commandBad:
			r.fault(FaultBadCommand, at+next, body[next:end])
		}
		next = indexFrom(body, '[', end)
	}
	rest = append(rest, body[from:]...)
	r.notes.buf = rest
	all := r.notes.commands
	return Comment{Text: plainText(rest), Commands: all[first:len(all):len(all)]}
}

// indexFrom is strings.IndexByte from offset from on.
func indexFrom(s string, c byte, from int) int {
	n := strings.IndexByte(s[from:], c)
	if n < 0 {
		return n
	}
	return from + n
}

// plainText folds what stands outside the commands and unmakes what would look
// like the beginning of one, so that the text reads back as text.
func plainText(b []byte) string {
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
	return fold(string(b))
}
