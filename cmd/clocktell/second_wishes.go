package main

import (
	"clocktell/relay"
	"clocktell/relay/engine"
)

// pastAtOnce is how many earlier positions of a board wait for the engine at a time, so
// that a show of many long games is looked through quickly.
const pastAtOnce = 8

// wishes returns the positions of which the show lacks an opinion.
func (s *seconder) wishes(show *relay.Show) []engine.Wish {
	var out []engine.Wish
	hot := make(map[int]bool)
	for _, suggestion := range show.Desk.Hot {
		hot[suggestion.Board] = true
	}
	for _, b := range show.Boards {
		out = s.boardWishes(out, b, newestClass(show, b, hot[b.Number]))
		if place := show.Desk.Place; place.Board == b.Number && place.Game == b.Game && !place.Live && place.Ply < len(b.Plies) {
			out = s.wish(out, b, place.Ply, engine.AtDesk)
		}
	}
	return out
}

// newestClass says how urgent the newest position of a board is.
func newestClass(show *relay.Show, b *relay.Board, hot bool) engine.Class {
	switch place := show.Desk.Place; {
	case show.Desk.Air.Board == b.Number:
		return engine.OnAir
	case place.Board == b.Number:
		return engine.AtDesk
	case hot:
		return engine.Hot
	}
	return engine.Newest
}

// boardWishes adds what a board lacks: its newest position, then some of those before it.
func (s *seconder) boardWishes(out []engine.Wish, b *relay.Board, newest engine.Class) []engine.Wish {
	n := len(b.Plies)
	out = s.wish(out, b, n, newest)
	earlier := engine.Past
	if b.Over() {
		earlier = engine.Deep
	} else {
		n--
	}
	for wanted := len(out) + pastAtOnce; n >= 0 && len(out) < wanted; n-- {
		out = s.wish(out, b, n, earlier)
	}
	return out
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
	if limit == 0 || said != nil && said.Final && said.Given >= limit {
		return out
	}
	place := b.Place(n)
	if place.Occupied() == 0 || !place.HasMove() {
		return out
	}
	return append(out, engine.Wish{
		Board: b.Number, Game: b.Game, Ply: n, Rev: b.Rev, Class: class, Key: engine.KeyOf(n, b.Place), Limit: engine.Limit{Time: limit},
		Line: func() engine.Line { return lineTo(b, n) },
	})
}

// lineTo returns how the position after n plies came about.
func lineTo(b *relay.Board, n int) engine.Line {
	from := engine.Since(n, b.Place)
	return engine.Line{Start: *b.Place(from), Moves: b.Moves(from, n)}
}
