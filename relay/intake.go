package relay

import (
	"errors"
	"fmt"
	"hash/maphash"
	"slices"
	"strings"
	"time"
	"unsafe"

	"clocktell/relay/pgn"
)

// ErrNotPGN says that a text holds no game at all: a web page, an empty file.
var ErrNotPGN = errors.New("no game in it: the address or file does not hold PGN")

// Intake turns the packets of one feed into events. It keeps the games of the last
// packet as texts, compares game by game, and reads only what is another text, so
// that a new move among many games costs little more than looking at the bytes.
// It belongs to one goroutine.
type Intake struct {
	feed   string
	pieces []piece
}

// piece is one game of the last packet.
type piece struct {
	text  string // of this game alone, from behind the game before it
	lines int    // line ends in it
	key   Key
	last  bool // nothing followed it
}

// hashSeed makes hashes of equal texts equal.
var hashSeed = maphash.MakeSeed()

// NewIntake returns the intake of the feed of that name.
func NewIntake(feed string) *Intake { return &Intake{feed: feed} }

// HoldsGames tells whether a packet is PGN, with ErrNotPGN if not. A web page may
// hold words that look like moves, but no tag pair.
func HoldsGames(packet []byte) error {
	text := asText(packet)
	for line := 1; text != ""; {
		game, end := pgn.Next(text, line)
		if len(game.Tags) > 0 {
			break
		}
		text = text[end:]
	}
	begins := strings.TrimSpace(strings.TrimPrefix(asText(packet), "\ufeff"))
	if text == "" || strings.HasPrefix(begins, "<") {
		return ErrNotPGN
	}
	return nil
}

// asText is packet as a string without copying it: nobody changes a packet once it
// has been received.
func asText(packet []byte) string { return unsafe.String(unsafe.SliceData(packet), len(packet)) }

// Read reads a packet received at that time: a PacketRead, or a FeedAnswered when
// nothing in it is new.
func (in *Intake) Read(at time.Time, packet []byte) Event {
	parts := in.cut(asText(packet))
	same := isSame(parts, len(in.pieces))
	event, err := in.Again(PacketRead{At: at, Feed: in.feed, Parts: parts})
	if err != nil {
		panic(err) // the parts were made from what they are put on
	}
	if same && len(event.Games) == 0 {
		return FeedAnswered{At: at, Feed: in.feed}
	}
	return event
}

// isSame reports parts that keep all n games in their places.
func isSame(parts []Part, n int) bool {
	return len(parts) == 0 && n == 0 || len(parts) == 1 && parts[0].From == 0 && parts[0].Count == n
}

// Again reads a packet given by its parts, as Read made them from the packet that
// followed the same one before. The error says that they do not fit.
func (in *Intake) Again(e PacketRead) (PacketRead, error) {
	next, from, err := build(in.pieces, e.Parts)
	if err != nil {
		return e, fmt.Errorf("feed %s: %w", in.feed, err)
	}
	e.Keys, e.More = make([]Key, min(len(next), gamesMost)), len(next) > gamesMost
	line := 1
	for i := range e.Keys {
		p := &next[i]
		last := i == len(next)-1
		if from[i] < 0 || p.last != last {
			p.last = last
			game := p.read(next[i+1:], line)
			e.Games = append(e.Games, GameRead{Index: i, Game: game, Last: last, Hash: maphash.String(hashSeed, p.text)})
		}
		e.Keys[i] = p.key
		line += p.lines
	}
	in.pieces = next
	return e, nil
}

// read reads the piece as it stands before others. What is read keeps nothing of
// the packet in memory but its own text.
func (p *piece) read(others []piece, line int) pgn.Game {
	context := strings.Clone(p.text)
	if len(others) > 0 {
		context = p.text + opening(others[0].text)
	}
	game, _ := pgn.Next(context, line)
	p.text = context[:len(p.text)]
	p.lines = pgn.CountLines(p.text)
	p.key = keyOf(&game)
	return game
}

// opening is as much of the next game's text as tells that a game begins there.
func opening(text string) string {
	for end := 0; end < len(text); {
		n := strings.IndexAny(text[end:], "\r\n")
		if n < 0 {
			break
		}
		end += n + 1
		if pgn.StartsGame(text[:end]) {
			return text[:end]
		}
	}
	return text
}

// gamesMost is how many games of one packet are read. What follows them is kept as
// one more piece, unread.
var gamesMost = pgn.DefaultLimits.Games

// cut finds the parts that make this text of the packet before.
func (in *Intake) cut(text string) []Part {
	c := cutter{before: in.pieces}
	for text != "" && c.games < gamesMost {
		text = text[c.next(text):]
	}
	if text != "" {
		c.change(text)
	}
	return c.parts
}

// cutter goes through a packet and the packet before it side by side.
type cutter struct {
	before []piece
	at     int // place before, of the game that is expected next
	games  int
	parts  []Part
	places map[string]int // of the games before by their texts; nil until needed
}

// next takes the first game of text, and returns how long it is.
func (c *cutter) next(text string) int {
	c.games++
	if c.at < len(c.before) {
		if p := &c.before[c.at]; strings.HasPrefix(text, p.text) && p.endsAlike(text[len(p.text):]) {
			c.keep(c.at)
			return len(p.text)
		}
	}
	_, end := pgn.Next(text, 1)
	own := text[:end]
	if place, ok := c.placeOf(own); ok {
		c.keep(place)
		return end
	}
	c.change(own)
	return end
}

// change adds a game of another text, as what it differs by from the one expected.
func (c *cutter) change(text string) {
	part := Part{Text: text}
	if c.at < len(c.before) {
		part = patch(c.at, c.before[c.at].text, text)
		c.at++
	}
	part.Text = strings.Clone(part.Text)
	c.parts = append(c.parts, part)
}

// endsAlike reports that a game whose text stands again ends there as it did: the
// packet ends, or another game begins.
func (p *piece) endsAlike(rest string) bool {
	if p.last || rest == "" {
		return p.last && rest == ""
	}
	return pgn.StartsGame(rest)
}

// keep adds the game that stood at a place before.
func (c *cutter) keep(place int) {
	c.at = place + 1
	if n := len(c.parts) - 1; n >= 0 && c.parts[n].Count > 0 && c.parts[n].From+c.parts[n].Count == place {
		c.parts[n].Count++
		return
	}
	c.parts = append(c.parts, Part{From: place, Count: 1})
}

func (c *cutter) placeOf(text string) (int, bool) {
	if c.places == nil {
		c.places = make(map[string]int, len(c.before))
		for i := range slices.Backward(c.before) {
			c.places[c.before[i].text] = i
		}
	}
	place, ok := c.places[text]
	return place, ok
}
