package pgn

import (
	"strings"
	"unicode/utf8"
)

// state says where in a game the reader stands.
type state uint8

const (
	between state = iota // no game begun
	inTags               // the game has tag pairs or comments, no moves
	inMoves              // the game has moves
	ended                // the game has its result; comments may still follow
)

// reader reads the games of one text, one after the other. Offsets count bytes of
// text.
type reader struct {
	text string
	lim  Limits
	pos  int // next byte to read
	lines
	// lastPacketGame: the last game of this text is the last of the packet, so
	// that its end may be half written and a missing result is no fault.
	lastPacketGame bool
	isUTF8         bool // known; no game needs to be looked through for other bytes

	g       Game // the game being read
	start   int  // its offset
	before  int  // how many of its faults stand in text before it
	told    int  // how many of its faults count against the limit
	state   state
	roster  uint8 // tags of the seven tag roster it has, by bit
	tree    *tree
	moveEnd int  // end of the last main line move with no space behind it, or -1
	over    bool // the game has ended, because another begins at pos
	ready   bool // the game is finished and worth keeping

	*stock
}

func newReader(text string, firstLine int, l Limits) *reader {
	size := firstBlock(len(text))
	all := &struct { // in one piece, since Next needs all of it for a single game
		reader
		tree
		stock
		main [1]line
	}{tree: tree{size: size}, stock: newStock(size)}
	all.tree.lines = all.main[:]
	all.reader = reader{
		text: text, lim: l, lines: newLines(text, firstLine), lastPacketGame: true,
		tree: &all.tree, moveEnd: -1, stock: &all.stock,
	}
	return &all.reader
}

// game reads the next game, and leaves pos where the one behind it begins; ok is
// false when the rest of the text holds none.
func (r *reader) game() (g Game, ok bool) {
	for r.pos < len(r.text) {
		if r.state != between {
			r.forget()
		}
		for r.pos < len(r.text) && !r.over {
			r.token()
		}
		if !r.over {
			r.finish(len(r.text), !r.lastPacketGame)
		}
		if r.ready {
			return r.g, true
		}
	}
	return Game{}, false
}

// forget makes the reader ready for another game.
func (r *reader) forget() {
	r.g, r.state, r.roster, r.moveEnd, r.told = Game{}, between, 0, -1, 0
	r.over, r.ready = false, false
	r.tree.forget()
}

// token reads what begins at pos and leaves pos behind it.
func (r *reader) token() {
	c := r.text[r.pos]
	switch kinds[c] {
	case kindGap:
		r.pos++
	case kindLetter:
		r.letter()
	case kindDigit:
		r.number()
	case kindTag:
		r.squareBracket()
	case kindBrace:
		r.braceComment()
	case kindHigh:
		r.highWord()
	default:
		r.sign(c)
	}
}

// begin starts a game at offset at, unless one is being read. If that one has its
// result, it ends here.
func (r *reader) begin(at int) {
	switch r.state {
	case between:
		r.start, r.state, r.before = at, inTags, len(r.g.Faults)
		r.g.Line, r.g.Tags = r.lineOf(at), r.tagRoom[:0]
	case ended:
		r.next(at)
	}
}

// next ends the game being read because another begins at offset at.
func (r *reader) next(at int) {
	r.finish(at, true)
	r.pos, r.over = at, true
}

// finish completes the game that ends at offset end; another says that more follow.
func (r *reader) finish(end int, another bool) {
	if r.state == between {
		return
	}
	r.closeVariations(end)
	r.openEnd(another)
	r.g.Comments, r.g.Moves = r.tree.lines[0].take()
	r.g.Tags = r.takeTags()
	if another && r.g.Result == "" {
		r.fault(FaultNoResult, end, "")
	}
	r.ready = len(r.g.Tags) > 0 || len(r.g.Moves) > 0 || r.g.Result != ""
	if text := r.text[r.start:end]; r.ready && !r.isUTF8 && !utf8.ValidString(text) {
		r.g = r.readLatin1(text, end == len(r.text))
	}
}

// takeTags returns the game's tags and leaves the room behind them to the next game.
func (r *reader) takeTags() []Tag {
	n := len(r.g.Tags)
	if n == 0 {
		return nil
	}
	r.tagRoom = r.g.Tags[n:]
	return r.g.Tags[:n:n]
}

// openEnd tells of a last move with nothing behind it.
func (r *reader) openEnd(another bool) {
	if another || r.state != inMoves || r.moveEnd < 0 || !r.atEnd(r.moveEnd) {
		return
	}
	moves := r.tree.lines[0].moves
	r.fault(FaultOpenEnd, r.moveEnd, moves[len(moves)-1].SAN)
}

// atEnd reports whether nothing is left of the text at offset i. NUL bytes say
// nothing about the end.
func (r *reader) atEnd(i int) bool {
	return i == len(r.text) || r.text[i] == 0 && strings.TrimLeft(r.text[i:], "\x00") == ""
}

// readLatin1 reads one game's bytes once more, as ISO 8859-1. Its bounds are
// known, so that only this game is read so.
func (r *reader) readLatin1(text string, last bool) Game {
	text = latin1(text)
	again := reader{
		text: text, lim: r.lim, lines: newLines(text, r.g.Line), isUTF8: true, lastPacketGame: last,
		tree: r.tree, moveEnd: -1, stock: r.stock,
	}
	again.tree.forget()
	again.g.Faults, again.told = r.g.Faults[:r.before:r.before], r.before
	again.faultLine(FaultEncoding, r.g.Line, "")
	g, ok := again.game()
	if !ok {
		g = Game{Line: r.g.Line, Faults: again.g.Faults}
	}
	return g
}
