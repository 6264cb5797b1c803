package build

import (
	"bytes"
	"io"
	"slices"

	"clocktell/relay/pgn"
)

// cutter cuts a text into blocks that begin where a game does. Where it cuts depends on
// the text alone, not on how its bytes come, so that every build cuts alike.
type cutter struct {
	r    io.Reader
	size int    // bytes of a block, as a rule
	most int    // bytes of the longest block; a game that is longer is left out
	rest []byte // read, and behind the last cut
	err  error  // why no more can be read
}

// cut is a piece of the text. A game too long comes as a piece of its own, of whose
// text only the beginning is kept.
type cut struct {
	text    []byte
	length  int64 // bytes of the text it stands for
	lines   int   // line ends in it
	tooLong bool
}

// next returns the next piece, its text in room if that is large enough. The error is
// io.EOF when the text is at its end.
func (c *cutter) next(room []byte) (cut, error) {
	for target := c.size; ; target = min(2*target, c.most) {
		if err := c.fill(target); err != nil {
			return cut{}, err
		}
		end := len(c.rest)
		if c.err == nil {
			end = lastGame(c.rest)
		}
		switch {
		case end > 0:
			return c.take(room, end), nil
		case c.err != nil:
			return cut{}, c.err
		case target == c.most:
			return c.skip(room)
		}
	}
}

// fill reads until there are n bytes or the text ends. An error other than the end is
// told before any text behind the last cut, so that no half game counts.
func (c *cutter) fill(n int) error {
	have := len(c.rest)
	c.rest = slices.Grow(c.rest, max(0, n-have))
	for have < n && c.err == nil {
		var got int
		got, c.err = c.r.Read(c.rest[have:n])
		have += got
	}
	c.rest = c.rest[:have]
	if c.err == io.EOF {
		return nil
	}
	return c.err
}

// take cuts off the first n bytes.
func (c *cutter) take(room []byte, n int) cut {
	text := append(room[:0], c.rest[:n]...)
	c.rest = c.rest[:copy(c.rest, c.rest[n:])]
	return cut{text: text, length: int64(n), lines: pgn.CountLines(view(text))}
}

// longHead is how much of a game too long is kept, to tell which it was.
const longHead = 4 << 10

// skip leaves out a game that is too long, up to where another begins.
func (c *cutter) skip(room []byte) (cut, error) {
	out := cut{text: append(room[:0], c.rest[:min(len(c.rest), longHead)]...), tooLong: true}
	for {
		n := firstGame(c.rest)
		found := n > 0
		switch {
		case found:
		case c.err != nil:
			n = len(c.rest)
		default:
			n = max(0, len(c.rest)-longHead) // the next game may begin in what is left
		}
		piece := c.take(nil, n)
		out.length += piece.length
		out.lines += piece.lines
		if found || c.err != nil {
			return out, nil
		}
		if err := c.fill(c.size + longHead); err != nil {
			return out, err
		}
	}
}

// eventTag begins a game, at the start of a line behind an empty one.
var eventTag = []byte("[Event ")

// lastGame returns where the last game of a text begins that has one before it, or 0.
// If no Event tag tells, reading the text does.
func lastGame(text []byte) int {
	for end := len(text); end > 0; {
		at := bytes.LastIndex(text[:end], eventTag)
		if at <= 0 {
			break
		}
		if startsGame(text, at) {
			return at
		}
		end = at
	}
	return lastRead(text)
}

// firstGame returns where the first game of a text begins that has something before it,
// or -1.
func firstGame(text []byte) int {
	for from := 1; from < len(text); from++ {
		n := bytes.Index(text[from:], eventTag)
		if n < 0 {
			return -1
		}
		if from += n; startsGame(text, from) {
			return from
		}
	}
	return -1
}

// startsGame reports whether a game begins at offset at, whatever stands before.
func startsGame(text []byte, at int) bool {
	ends := 0
	for i := at - 1; i >= 0 && text[i] <= ' ' && ends < 2; i-- {
		if text[i] == '\n' || text[i] == '\r' && text[i+1] != '\n' {
			ends++
		}
	}
	return ends == 2 && pgn.StartsGame(view(text[at:min(len(text), at+longHead)]))
}

// lastRead is lastGame for games that do not begin with their Event tag.
func lastRead(text []byte) int {
	last := 0
	for {
		_, end := limits.Next(view(text[last:]), 1)
		if last+end >= len(text) {
			return last
		}
		last += end
	}
}
