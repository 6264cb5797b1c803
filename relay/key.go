package relay

import (
	"cmp"
	"slices"
	"strings"

	"clocktell/relay/pgn"
)

// Key is what tells one game of a feed from another.
type Key struct {
	Event, Round, Table, White, Black string
}

func keyOf(g *pgn.Game) Key {
	return Key{
		Event: g.Tag("Event"), Round: g.Tag("Round"), Table: g.Tag("Board"),
		White: g.Tag("White"), Black: g.Tag("Black"),
	}
}

// clone returns a key that does not keep its packet in memory.
func (k Key) clone() Key {
	return Key{
		Event: strings.Clone(k.Event), Round: strings.Clone(k.Round), Table: strings.Clone(k.Table),
		White: strings.Clone(k.White), Black: strings.Clone(k.Black),
	}
}

// agree reports whether two tag values may mean the same: an unknown one agrees
// with any.
func agree(a, b string) bool {
	return a == b || unknown(a) || unknown(b)
}

func unknown(value string) bool { return value == "" || value == "?" || value == "-" }

// likeness ranks how surely two keys mean the same board, from 0, not at all, to
// 3, the same key. A board keeps its place when a name is corrected late and when
// the next round is paired at it.
func (k Key) likeness(other Key) int {
	switch {
	case k == other:
		return 3
	case k.Event == other.Event && k.Round == other.Round && k.Table != "" && k.Table == other.Table:
		return 2
	case agree(k.Round, other.Round) && k.White == other.White && k.Black == other.Black:
		return 1
	}
	return 0
}

// match is a board that may show a game.
type match struct {
	game, board int // indices
	likeness    int
	common      int // plies both have
	samePlace   bool
}

// better orders matches, the surest first: by their keys, then by their moves,
// then by their place in the packet, then by order.
func better(a, b match) int {
	place := func(m match) int {
		if m.samePlace {
			return 0
		}
		return 1
	}
	return cmp.Or(cmp.Compare(b.likeness, a.likeness), cmp.Compare(b.common, a.common), cmp.Compare(place(a), place(b)),
		cmp.Compare(a.game, b.game), cmp.Compare(a.board, b.board))
}

// pair finds for every game of a packet the board that shows it: the number of
// an old board, or 0 for a game that needs a new one. Games that no key leads to
// take, by place or table, boards whose game the packet no longer has: a pairing
// that moved on. With full set there is no room for new boards, and such games
// take any board left.
func pair(e PacketRead, boards []*Board, full bool) []int {
	numbers := make([]int, len(e.Keys))
	taken := make(map[int]bool, len(boards))
	take := func(matches []match) {
		slices.SortFunc(matches, better)
		for _, m := range matches {
			if numbers[m.game] == 0 && !taken[m.board] {
				numbers[m.game], taken[m.board] = boards[m.board].Number, true
			}
		}
	}
	take(matches(e, boards, func(m match, _ Key, _ *Board) bool { return m.likeness > 0 }))
	take(matches(e, boards, func(m match, _ Key, _ *Board) bool { return m.samePlace }))
	take(matches(e, boards, func(_ match, k Key, b *Board) bool { return full || k.Table != "" && k.Table == b.Key.Table }))
	return numbers
}

// matches lists every game with every board that may be its own.
func matches(e PacketRead, boards []*Board, may func(match, Key, *Board) bool) []match {
	moves := make(map[int][]pgn.Move, len(e.Games))
	for i := range e.Games {
		moves[e.Games[i].Index] = e.Games[i].Game.Moves
	}
	var out []match
	for game, key := range e.Keys {
		for i, b := range boards {
			m := match{game: game, board: i, likeness: key.likeness(b.Key), samePlace: b.Place == game}
			if !may(m, key, b) {
				continue
			}
			if changed, ok := moves[game]; ok {
				m.common = sameWords(changed, b.Plies)
			} else if m.samePlace {
				m.common = len(b.Plies) // its text stands as it was
			}
			out = append(out, m)
		}
	}
	return out
}

// sameWords counts the first moves written alike.
func sameWords(moves []pgn.Move, plies []Ply) int {
	n := min(len(moves), len(plies))
	for i := range n {
		if moves[i].SAN != plies[i].Text {
			return i
		}
	}
	return n
}
