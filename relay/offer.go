package relay

import (
	"slices"
	"time"

	"clocktell/relay/pgn"
)

// How long a feed must keep to an older state before it is believed. A cache
// between serves what it has for some seconds; an arena that takes a move back
// stays with it. More than a single ply back, or several games at once, looks
// like a cache indeed.
const (
	takebackAfter = 10 * time.Second
	olderAfter    = 30 * time.Second
	toldMost      = 2048 // texts remembered of one game
)

// Offer is what one feed says of a board's game. Like a Board it is never
// changed.
type Offer struct {
	Feed    string
	Key     Key
	Place   int       // of the game in the feed's last packet, from 0
	Game    *pgn.Game // as last believed
	Receipt Receipt   // of it
	Gone    time.Time // since when the feed's packets lack the game; zero: they have it
	Older   *Older    // an older state the feed has jumped back to; nil: none
	Broken  string    // why the moves cannot be played on; known of a feed that was followed

	faults   []pgn.Fault // of the newest text
	brokenAt int         // index of the ply that cannot be played
	of       int         // which of the board's games it is, counted as Board.Game
	most     int         // plies it has told of that game at most
	texts    int         // believed so far
	hash     uint64      // of the text believed
	last     bool        // no game followed that text
	cut      bool        // that text broke off: Game may hold more
	told     []uint64    // hashes of the texts before, oldest first

	fit     time.Time // since when it could be followed without a doubt; zero: it cannot
	doubted time.Time // since when it could not; zero: it can
	behind  time.Time // since when another feed has more moves; zero: none has
}

// Older is a state that a feed had told before and tells again.
type Older struct {
	Since time.Time
	Due   time.Time // when it is believed, if the feed keeps to it
	Plies int
	read  *GameRead
}

// plies returns how many plies an offer has.
func (o *Offer) plies() int {
	if o.Game == nil {
		return 0
	}
	return len(o.Game.Moves)
}

// after returns the offer after a packet brought another text of its game. several
// says that other games of the packet went back as well.
func (o *Offer) after(read *GameRead, r Receipt, several bool) *Offer {
	next := *o
	next.Gone = time.Time{}
	switch {
	case o.Game != nil && read.Hash == o.hash && read.Last == o.last:
		next.Older = nil
	case o.goesBack(read):
		next.Older = o.older(read, r.At, several)
	default:
		next.believe(read, r)
	}
	return &next
}

// goesBack reports a text that the feed has told before. When the newest text broke
// off, one that says as much or more is what it was half of.
func (o *Offer) goesBack(read *GameRead) bool {
	half := o.cut && len(read.Game.Moves) >= o.plies()
	return o.Game != nil && !half && !breaksOff(&read.Game) && slices.Contains(o.told, read.Hash)
}

func (o *Offer) older(read *GameRead, at time.Time, several bool) *Older {
	older := &Older{Since: at, Due: at.Add(olderAfter), Plies: len(read.Game.Moves), read: read}
	if older.Plies >= o.plies()-1 && !several {
		older.Due = at.Add(takebackAfter)
	}
	if o.Older == nil {
		return older
	}
	if o.Older.read.Hash == read.Hash {
		return o.Older
	}
	if older.Due.Before(o.Older.Due) { // from one older state to another
		older.Due = o.Older.Due
	}
	older.Since = o.Older.Since
	return older
}

func (next *Offer) believe(read *GameRead, r Receipt) {
	g := &read.Game
	if next.Game != nil && next.hash != read.Hash {
		told := next.told[max(0, len(next.told)-toldMost+1):]
		next.told = append(slices.Clip(told), next.hash)
	}
	next.texts++
	next.hash, next.last, next.Receipt, next.Older, next.cut = read.Hash, read.Last, r, nil, breaksOff(g)
	if next.cut {
		g = wholeWords(g)
	}
	if next.faults = g.Faults; next.cut && next.hasAll(g) {
		return
	}
	if next.Game != nil && next.startsAnother(g) {
		next.of, next.most = next.of+1, 0
	}
	if next.Broken != "" && sameStart(g.Moves, next.Game.Moves) <= next.brokenAt {
		next.Broken = ""
	}
	if next.Game != nil && sameStart(g.Moves, next.Game.Moves) < min(len(g.Moves), next.plies()) {
		next.most = 0 // it has gone another way
	}
	next.Key, next.Game = keyOf(g), g
	next.most = max(next.most, len(g.Moves))
}

// startsAnother reports whether a feed's text is of another game than the one it told
// before: of another round or start, a rematch, or other players whose moves do not go
// on from there.
func (o *Offer) startsAnother(g *pgn.Game) bool {
	key, common := keyOf(g), sameStart(g.Moves, o.Game.Moves)
	white, black := agree(key.White, o.Key.White), agree(key.Black, o.Key.Black)
	switch {
	case g.Tag("FEN") != o.Game.Tag("FEN") && startOf(g).fault == "":
		return true
	case !agree(key.Round, o.Key.Round):
		mended := white && black && common > 0 && common == o.plies()
		return !mended
	case white && black:
		over := o.Game.Result != "" && o.Game.Result != "*"
		return over && g.Result == "*" && len(g.Moves) < o.plies() && (len(g.Moves) == 0 || common < len(g.Moves))
	case common == o.plies(), breaksOff(g) && common == len(g.Moves):
		return false
	}
	return !white && !black || common == 0 || common < o.plies()-2
}

// hasAll reports that a text which breaks off says nothing that the feed has not said:
// what is missing behind it is no news.
func (o *Offer) hasAll(g *pgn.Game) bool {
	n := len(g.Moves)
	if o.Game == nil || keyOf(g) != o.Key || n > o.plies() || sameStart(g.Moves, o.Game.Moves) < n {
		return false
	}
	return n < o.plies() || n > 0 && clockMayBeCut(g, &g.Moves[n-1])
}

// wholeWords returns a game without a last move that may be half a word: O-O may
// still become O-O-O.
func wholeWords(g *pgn.Game) *pgn.Game {
	if len(trusted(g)) == len(g.Moves) {
		return g
	}
	whole := *g
	whole.Moves = trusted(g)
	whole.Faults = slices.DeleteFunc(slices.Clone(g.Faults), func(f pgn.Fault) bool { return f.Reason == pgn.FaultOpenEnd })
	return &whole
}

// settled believes an older state that the feed has kept to long enough: it has
// answered since, and said nothing else.
func (o *Offer) settled(heard, t time.Time) *Offer {
	if o.Older == nil || !o.Gone.IsZero() || t.Before(o.Older.Due) || !heard.After(o.Older.Since) {
		return o
	}
	next := *o
	next.believe(o.Older.read, Receipt{At: t, Within: t.Sub(o.Older.Since)})
	return &next
}

// vanished notes that a packet lacks the game.
func (o *Offer) vanished(at time.Time) *Offer {
	if !o.Gone.IsZero() {
		return o
	}
	next := *o
	next.Gone = at
	return &next
}
