package relay

import (
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

// likeness ranks how surely two keys mean the same board, from 0, not at all,
// to 3, the same key. A board keeps its place when a name is corrected late and
// when the next round is paired at it.
func (k Key) likeness(other Key) int {
	switch {
	case k == other:
		return 3
	case k.Event == other.Event && k.Round == other.Round && k.Table != "" && k.Table == other.Table:
		return 2
	case k.Round == other.Round && k.White == other.White && k.Black == other.Black:
		return 1
	}
	return 0
}

// pair finds for every key of a packet the board that shows it: the number of
// an old board, or 0 for a game that needs a new one. Sure matches go first;
// among equals, order decides. What is left over takes, in order, the boards
// whose game the packet no longer has: a pairing that moved on.
func pair(keys []Key, boards []*Board) []int {
	numbers := make([]int, len(keys))
	taken := make(map[int]bool, len(boards))
	for likeness := 3; likeness > 0; likeness-- {
		pairOnce(keys, boards, numbers, taken, func(k Key, b *Board) bool { return k.likeness(b.Key) == likeness })
	}
	pairOnce(keys, boards, numbers, taken, func(k Key, b *Board) bool { return k.Table == b.Key.Table })
	return numbers
}

func pairOnce(keys []Key, boards []*Board, numbers []int, taken map[int]bool, same func(Key, *Board) bool) {
	for i, key := range keys {
		if numbers[i] != 0 {
			continue
		}
		for _, board := range boards {
			if !taken[board.Number] && same(key, board) {
				numbers[i] = board.Number
				taken[board.Number] = true
				break
			}
		}
	}
}
