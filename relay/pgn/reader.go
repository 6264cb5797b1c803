package pgn

import (
	"strings"
	"unicode/utf8"
)

// Read returns the games of a packet, in order, within DefaultLimits. It never
// fails: what it cannot take is named in the faults of the game it stands in.
// Text without a tag pair, a move or a result holds no game. The text is UTF-8;
// a game that is not is read as ISO 8859-1, whatever the others are. Game.Text
// points into data, which must not change afterwards.
func Read(data []byte) []Game { return DefaultLimits.Read(data) }

// Read is the function Read with other limits.
func (l Limits) Read(data []byte) []Game {
	text := string(data)
	r := newReader(text, 1, l)
	r.data = data
	r.utf8 = utf8.ValidString(text)
	r.lastPacketGame = true
	r.run()
	return r.games
}

// state says where in a game the reader stands.
type state uint8

const (
	between state = iota // no game begun
	inTags               // the game has tag pairs or comments, no moves
	inMoves              // the game has moves
	ended                // the game has its result; comments may still follow
)

// reader reads one packet. Offsets count bytes of text.
type reader struct {
	text string
	data []byte // the same bytes, for Game.Text; nil while a game is read again
	lim  Limits
	pos  int // next byte to read
	end  int // text without trailing NUL bytes, which say nothing about the end

	lines
	closingBrace int // next "}" at or behind pos, or len(text); -1 not searched
	utf8         bool
	// lastPacketGame: the last game of this text is the last of the packet, so
	// that its end may be half written and a missing result is no fault.
	lastPacketGame bool
	single         bool // stop when a second game begins

	games   []Game
	g       Game // the game being read
	start   int  // its offset
	before  int  // how many of its faults stand in text before it
	told    int  // how many of its faults count against the limit
	state   state
	roster  uint8 // tags of the seven tag roster it has, by bit
	tree    tree
	moveEnd int // end of the last main line move, or -1
	full    bool

	notes notes
}

func newReader(text string, firstLine int, l Limits) *reader {
	r := &reader{text: text, lim: l, closingBrace: -1, moveEnd: -1}
	r.end = len(strings.TrimRight(text, "\x00"))
	r.lines = newLines(text, firstLine)
	r.tree.lines = make([]line, 1, 8)
	return r
}

func (r *reader) run() {
	for r.pos < len(r.text) && !r.full {
		r.token()
	}
	if !r.full {
		r.finish(len(r.text), !r.lastPacketGame)
	}
}

// token reads what begins at pos and leaves pos behind it.
func (r *reader) token() {
	c := r.text[r.pos]
	switch kinds[c] {
	case kindSpace:
		r.pos++
	case kindLetter:
		r.word()
	case kindDigit:
		r.number()
	case kindHigh:
		r.highWord()
	default:
		r.sign(c)
	}
}

// begin starts a game at offset at, unless one is being read.
func (r *reader) begin(at int) {
	if r.state != between && r.state != ended {
		return
	}
	if r.state == ended {
		r.next(at)
	}
	r.start, r.state, r.before = at, inTags, len(r.g.Faults)
	r.g.Line = r.lineOf(at)
}

// next ends the game being read because another begins at offset at.
func (r *reader) next(at int) {
	r.finish(at, true)
	r.full = r.full || r.single
}

// finish keeps the game that ends at offset end; another says that more follow.
func (r *reader) finish(end int, another bool) {
	if r.state == between {
		return
	}
	r.closeVariations(end)
	r.openEnd(another)
	main := &r.tree.lines[0]
	r.g.Comments, r.g.Moves = main.take()
	r.tree.forget()
	if another && r.g.Result == "" {
		r.fault(FaultNoResult, end, "")
	}
	if len(r.g.Tags) > 0 || len(r.g.Moves) > 0 || r.g.Result != "" {
		r.keep(end)
	}
	r.g, r.state, r.roster, r.moveEnd, r.told = Game{}, between, 0, -1, 0
}

// openEnd tells of a last move with nothing behind it.
func (r *reader) openEnd(another bool) {
	if another || r.state != inMoves || r.tree.depth > 0 || r.moveEnd != r.end {
		return
	}
	moves := r.tree.lines[0].moves
	r.fault(FaultOpenEnd, r.end, moves[len(moves)-1].SAN)
}

// keep appends the game, read again when its bytes are not UTF-8.
func (r *reader) keep(end int) {
	if len(r.games) >= r.lim.Games {
		r.overfull()
		return
	}
	text := r.text[r.start:end]
	if !r.utf8 && !utf8.ValidString(text) {
		r.g = r.readLatin1(text, end == len(r.text))
	}
	if r.data != nil {
		r.g.Text = r.data[r.start:end:end]
	}
	r.games = append(r.games, r.g)
}

// overfull tells the last game kept that this one is one too many.
func (r *reader) overfull() {
	line := r.g.Line
	r.g, r.full = Game{}, true
	if n := len(r.games); n > 0 {
		r.g = r.games[n-1]
		r.faultLine(FaultLimitGames, line, "")
		r.games[n-1] = r.g
	}
}

// readLatin1 reads one game's bytes once more, as ISO 8859-1. Its bounds are
// known, so that only this game is read so.
func (r *reader) readLatin1(text string, last bool) Game {
	again := newReader(latin1(text), r.g.Line, r.lim)
	again.utf8, again.single, again.lastPacketGame = true, true, last
	again.g.Faults, again.told = r.g.Faults[:r.before:r.before], r.before
	again.faultLine(FaultEncoding, r.g.Line, "")
	again.run()
	if len(again.games) == 0 {
		return Game{Line: r.g.Line, Faults: again.g.Faults}
	}
	return again.games[0]
}
