package relay

import (
	"slices"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/pgn"
)

// shownState is what the board was last made from.
type shownState struct {
	feed    string
	hash    uint64
	entries int
}

// followed returns the board as the feed it follows and the producer's entries make
// it. Nothing is done twice.
func (b *Board) followed(defaults Defaults, at time.Time) *Board {
	o := b.offer(b.Feed)
	receipt, state := Receipt{At: at}, shownState{feed: b.Feed, entries: b.Hand.entries}
	if o != nil {
		state.hash = o.hash
		receipt.Within = o.Receipt.Within + at.Sub(o.Receipt.At)
	}
	if !b.Frozen.IsZero() {
		state.hash = b.shown.hash // the producer's entries count, the feed's do not
	}
	if b.shown == state {
		return b
	}
	next := *b
	next.awaits = b.awaits || b.Feed != b.shown.feed && b.shown.feed != ""
	next.borrowed = len(b.Offers) > 0 && b.Offers[0].Feed != b.Feed
	next.shown, next.Question = state, nil
	return next.Apply(next.toShow(o), receipt, defaults).noted()
}

// toShow returns the game to show: what the feed says, with what was entered by hand.
// While a move is in question, or the board is frozen, it is what the feed said
// before.
func (next *Board) toShow(o *Offer) *pgn.Game {
	said := &pgn.Game{Result: "*"}
	switch {
	case !next.Frozen.IsZero() && next.accepted != nil:
		said = next.accepted
	case o != nil && o.Game != nil:
		said = next.upTo(o.Game)
	}
	game, question := next.merged(said)
	if question == nil {
		next.accepted = said
		return game
	}
	if next.accepted != nil {
		game, _ = next.merged(next.accepted)
	}
	next.Question = question
	return game
}

// upTo returns a feed's game, up to where the board stands: a feed that has just been
// turned to may not have come as far, and its silence takes nothing back.
func (next *Board) upTo(g *pgn.Game) *pgn.Game {
	next.told = len(g.Moves)
	fed := next.fedPlies()
	if next.awaits = next.awaits && len(g.Moves) < fed && next.agreesWith(&Offer{Game: g}); !next.awaits {
		return g
	}
	longer := *g
	longer.Moves, longer.Result = slices.Clip(g.Moves), ""
	longer.Faults = slices.DeleteFunc(slices.Clone(g.Faults), func(f pgn.Fault) bool { return f.Reason == pgn.FaultNoResult })
	for _, ply := range next.Plies[len(g.Moves):fed] {
		longer.Moves = append(longer.Moves, pgn.Move{SAN: ply.Text})
	}
	return &longer
}

// fedPlies counts the plies shown before the first that stands by hand alone.
func (b *Board) fedPlies() int {
	for i := range b.Plies {
		if b.Plies[i].ByHand {
			return i
		}
	}
	return len(b.Plies)
}

// noted writes down with the feed followed that its moves cannot be played.
func (b *Board) noted() *Board {
	o := b.offer(b.Feed)
	if o == nil || o.Broken == b.Fault {
		return b
	}
	broken, next := *o, *b
	broken.Broken = b.Fault
	next.Offers = slices.Clone(b.Offers)
	next.Offers[slices.Index(b.Offers, o)] = &broken
	return &next
}

// readingAt returns what is known of the clocks after the ply at index i, and what of
// it is no reading.
func (next *Board) readingAt(i int, move *pgn.Move) (clock.Reading, string) {
	reading, misread := readingOf(move)
	if entered, ok := next.handedClock(i, move.SAN, reading); ok {
		return entered, ""
	}
	return reading, misread
}

// keepsReading reports that the reading of a ply at index i is no better than the one
// there is: a backup without clocks takes none away, nor does one that has not come to
// that ply yet.
func (next *Board) keepsReading(i int, reading clock.Reading) bool {
	return reading == clock.Reading{} && (next.borrowed || next.awaits && i >= next.told)
}

// stampByHand gives an entered ply the time of its entry.
func (next *Board) stampByHand(ply *Ply) {
	if e := next.Hand.move(len(next.Plies) + 1); e != nil {
		ply.ByHand, ply.Seen, ply.Within, ply.Alone = true, e.At, 0, true
	}
}

// markByHand marks the plies that stand by hand alone. It returns the first index,
// at most from, at which anything differs.
func (next *Board) markByHand(from int) int {
	for i := range next.Plies {
		byHand := next.Hand.move(i+1) != nil
		if byHand == next.Plies[i].ByHand {
			continue
		}
		if i < from {
			from, next.Plies = i, slices.Clone(next.Plies)
		}
		next.Plies[i].ByHand = byHand
	}
	return from
}

// silence returns since when nobody knows whose clock runs, given since when the
// feed followed is silent: a producer who enters moves knows, and one who freezes the
// board stops its clocks.
func (b *Board) silence(feed time.Time) time.Time {
	if !b.Frozen.IsZero() {
		return b.Frozen
	}
	if feed.IsZero() || len(b.Hand.Moves) > 0 && b.Hand.Last.After(feed) {
		return time.Time{}
	}
	return feed
}
