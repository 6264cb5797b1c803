package relay

import (
	"strings"

	"clocktell/relay/pgn"
)

// Key is what tells one game of a feed from another.
type Key struct {
	Event, Round, Table, White, Black string
}

func keyOf(g *pgn.Game) Key {
	tag := func(name string) string { return strings.TrimSpace(g.Tag(name)) }
	return Key{Event: tag("Event"), Round: tag("Round"), Table: tag("Board"), White: tag("White"), Black: tag("Black")}
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

// sameGame reports whether two feeds name a game alike: the same players, and nothing
// against the same round.
func (k Key) sameGame(other Key) bool {
	return !unknown(k.White) && !unknown(k.Black) && k.White == other.White && k.Black == other.Black && agree(k.Round, other.Round)
}
