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
	texts   int
	entries int
	awaits  bool
}

// followed returns the board as the feed it follows and the producer's entries make
// it. Nothing is done twice.
func (b *Board) followed(defaults Defaults, at time.Time) *Board {
	o := b.offer(b.Feed)
	state, awaits := b.stateBy(o)
	if b.shown == state {
		return b
	}
	receipt := Receipt{At: at, Late: defaults.Late}
	if o != nil {
		receipt.Within = o.Receipt.Within + at.Sub(o.Receipt.At)
	}
	next := *b
	next.awaits = awaits
	next.unheard = b.Feed == b.shown.feed && state.texts == b.shown.texts
	next.borrowed = len(b.Offers) > 0 && b.Offers[0].Feed != b.Feed && b.Offers[0].of == b.Game
	next.shown, next.Question = state, nil
	return next.Apply(next.toShow(), receipt, defaults).noted()
}

// stateBy returns what a board shows that has taken all of the offer it follows, nil for
// none, and whether it may have to wait for it.
func (b *Board) stateBy(o *Offer) (state shownState, awaits bool) {
	state = shownState{feed: b.Feed, entries: b.Hand.entries}
	if o != nil {
		state.texts = o.texts
	}
	awaits = b.awaits || b.Feed != b.shown.feed && b.shown.feed != ""
	state.awaits = awaits && o != nil && b.awaited(o)
	if !b.Frozen.IsZero() { // the producer's entries count, the feed's do not
		state.texts, state.awaits = b.shown.texts, b.shown.awaits
	}
	return state, awaits
}

// upToDate reports, of a board whose game only one feed has, that it has taken all that
// this says: most boards have, whenever their feed answers.
func (b *Board) upToDate(f *Feed) bool {
	if len(b.Offers) != 1 || b.Offers[0].Older != nil || b.Offers[0].Feed != f.Name || b.Feed != f.Name {
		return false
	}
	state, _ := b.stateBy(b.Offers[0])
	return b.shown == state && b.Silent.Equal(b.silence(f))
}

// toShow returns the game to show: what the feed says, with what was entered by hand.
// While a move is in question it is what was shown before, entries and all.
func (next *Board) toShow() *pgn.Game {
	said := next.said()
	if o := next.offer(next.Feed); o != nil {
		next.awaits, next.told = next.waitsFor(o), o.plies()
		if next.another = next.Frozen.IsZero() && o.of > next.Game; next.another {
			next.Hand, next.accepted, next.taken = Hand{entries: next.Hand.entries}, nil, nil
		}
	}
	game, question := next.merged(said)
	if next.Question = question; question == nil || next.taken == nil {
		next.accepted, next.taken = said, game
	}
	return next.taken
}

// said returns what the feed followed says: nothing if there is none, and of a frozen
// board what it said then.
func (b *Board) said() *pgn.Game {
	o := b.offer(b.Feed)
	switch {
	case !b.Frozen.IsZero() && b.accepted != nil:
		return b.accepted
	case o == nil || o.Game == nil:
		return &pgn.Game{Result: "*"}
	case b.waitsFor(o):
		return b.extended(o.Game)
	}
	return o.Game
}

// waitsFor reports that a feed that has been turned to has not come as far as the
// board and says nothing against it: its silence takes nothing back. A feed that has
// come so far, and says less now, does; and so it is when no feed tells those plies
// any more.
func (b *Board) waitsFor(o *Offer) bool { return b.awaits && b.awaited(o) }

// awaited is waitsFor of a board that awaits.
func (b *Board) awaited(o *Offer) bool {
	fed := b.fedPlies()
	if o.Game == nil || o.of != b.Game || o.most >= fed || !b.agreesWith(o) {
		return false
	}
	return slices.ContainsFunc(b.Offers, func(other *Offer) bool { return other.of == b.Game && other.plies() >= fed })
}

// extended returns a feed's game with the plies that another feed told behind it, as a
// text that breaks off there.
func (b *Board) extended(g *pgn.Game) *pgn.Game {
	longer := *g
	longer.Moves, longer.Result = slices.Clip(g.Moves), ""
	longer.Faults = slices.DeleteFunc(slices.Clone(g.Faults), func(f pgn.Fault) bool { return f.Reason == pgn.FaultNoResult })
	for i := len(g.Moves); i < b.fedPlies(); i++ {
		longer.Moves = append(longer.Moves, pgn.Move{SAN: b.fedText(i)})
	}
	return &longer
}

// fedPlies counts the plies shown up to the last that a feed has told.
func (b *Board) fedPlies() int {
	n := len(b.Plies)
	for n > 0 && b.Plies[n-1].ByHand && b.fedText(n-1) == "" {
		n--
	}
	return n
}

// fedText returns the ply at index i as the feed had it, "" if only the producer has.
func (b *Board) fedText(i int) string {
	if !b.Plies[i].ByHand {
		return b.Plies[i].Text
	}
	if m := b.Hand.move(i + 1); m != nil {
		return m.Over
	}
	return ""
}

// noted writes down with the feed followed that its moves cannot be played.
func (b *Board) noted() *Board {
	o := b.offer(b.Feed)
	if o == nil || o.Broken == b.Fault || b.unheard || b.Fault != "" && len(b.Hand.Moves) > 0 {
		return b // what an entry makes unplayable is not the feed's fault
	}
	broken, next := *o, *b
	broken.Broken, broken.brokenAt = b.Fault, len(b.Plies)
	next.Offers = slices.Clone(b.Offers)
	next.Offers[slices.Index(b.Offers, o)] = &broken
	return &next
}

// keepsReading reports that the reading of a ply at index i is no better than the one
// there is: a backup without clocks takes none away, nor does one that has not come to
// that ply yet.
func (next *Board) keepsReading(i int, reading clock.Reading) bool {
	return reading == clock.Reading{} && (next.borrowed || next.awaits && i >= next.told)
}

// stampByHand gives an entered ply the time of its entry.
func (next *Board) stampByHand(ply *Ply) {
	if e := next.Hand.move(len(next.Plies) + 1); e != nil && e.SAN != "" {
		ply.ByHand, ply.Seen, ply.Within, ply.Alone = true, e.At, 0, true
	}
}

// markByHand marks the plies that stand by hand alone. It returns the first index,
// at most from, at which anything differs.
func (next *Board) markByHand(from int) int {
	for i := range next.Plies {
		e := next.Hand.move(i + 1)
		byHand := e != nil && e.SAN != ""
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

// silence returns since when nobody knows whose clock runs, given the feed followed: a
// producer who has entered a move since that was late knows, and one who freezes the
// board stops its clocks.
func (b *Board) silence(f *Feed) time.Time {
	switch n := len(b.Hand.Moves); {
	case !b.Frozen.IsZero():
		return b.Frozen
	case f.State != FeedStale, n > 0 && !b.Hand.Moves[n-1].At.Before(f.silentSince().Add(f.Late)):
		return time.Time{}
	}
	return f.silentSince()
}
