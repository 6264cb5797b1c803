package main

import (
	"time"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/engine"
	"clocktell/relay/opinion"
)

// pastAtOnce is how many earlier positions of a board wait for the engine at a time, so
// that a show of many long games is looked through quickly.
const pastAtOnce = 8

// wishes returns the positions of which the show lacks an opinion: those that somebody
// waits for, then what games have gone through, and all of a finished game once more.
func (s *seconder) wishes(show *relay.Show) []engine.Wish {
	var out []engine.Wish
	for _, w := range show.Wanted() {
		switch class := classOf(show, w); {
		case w.Ply != relay.OffGame:
			out = s.wish(out, show.Boards[w.Board-1], w.Ply, class)
		case !s.second: // of side lines one opinion is kept
			out = s.aside(out, show, w, class)
		}
	}
	for _, b := range show.Boards {
		n, class := len(b.Plies), engine.Deep
		if !b.Over() {
			n, class = n-1, engine.Past
		}
		for wanted := len(out) + pastAtOnce; n >= 0 && len(out) < wanted; n-- {
			out = s.wish(out, b, n, class)
		}
	}
	return out
}

// classOf says how urgent a wanted position is. What is on the air goes before what a
// desk looks at, if that is another one: viewers wait for it, too.
func classOf(show *relay.Show, w relay.Wanted) engine.Class {
	switch {
	case w.For == relay.WantedOnAir, w.Board == show.Desk.Air.Board && w.Ply == len(show.Boards[w.Board-1].Plies):
		return engine.OnAir
	case w.For == relay.WantedAtDesk:
		return engine.AtDesk
	case w.For == relay.WantedBurning:
		return engine.Hot
	}
	return engine.Newest
}

// wish adds the position after n plies if the show lacks an opinion of it.
func (s *seconder) wish(out []engine.Wish, b *relay.Board, n int, class engine.Class) []engine.Wish {
	limit := s.live
	if class == engine.Deep {
		limit = s.deep
	}
	said := b.OpinionAt(n)
	if s.second {
		said = b.SecondOpinionAt(n)
	}
	place := b.Place(n)
	if limit == 0 || isOutcome(said, limit) || place.Occupied() == 0 || !place.HasMove() || !b.HasStart() {
		return out
	}
	return append(out, engine.Wish{
		Board: b.Number, Game: b.Game, Ply: n, Class: class, Key: engine.KeyOf(n, b.Place), Limit: engine.Limit{Time: limit},
		Line: func() engine.Line { return lineTo(b, n) },
	})
}

// lineTo returns how the position after n plies came about.
func lineTo(b *relay.Board, n int) engine.Line {
	from := engine.Since(n, b.Place)
	return engine.Line{Start: *b.Place(from), Moves: b.Moves(from, n)}
}

// aside adds a position of a side line if the show lacks an opinion of it.
func (s *seconder) aside(out []engine.Wish, show *relay.Show, w relay.Wanted, class engine.Class) []engine.Wish {
	p, moves, ok := show.Course(w)
	if !ok || isOutcome(show.OpinionOff(w.Place), s.live) {
		return out
	}
	places := []bitboard.Position{p}
	for _, m := range moves {
		p.Make(m)
		places = append(places, p)
	}
	n := len(moves)
	place := func(i int) *bitboard.Position { return &places[i] }
	return append(out, engine.Wish{
		Board: w.Board, Game: w.Game, Ply: w.Ply, Class: class, Key: engine.KeyOf(n, place),
		Limit: engine.Limit{Time: s.live},
		Line: func() engine.Line {
			from := engine.Since(n, place)
			return engine.Line{Start: places[from], Moves: moves[from:]}
		},
	})
}

// isOutcome reports whether an opinion is what a search of that length comes to, or comes
// of a longer one that has gone on for as long.
func isOutcome(o *opinion.Opinion, given time.Duration) bool {
	return o != nil && (o.Final && o.Given >= given || o.Given > given && o.Took >= given)
}
