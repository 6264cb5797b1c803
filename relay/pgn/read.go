package pgn

import (
	"slices"
	"unsafe"
)

// Read returns the games of a packet, in order, within DefaultLimits. It never
// fails: what it cannot take is named in the faults of the game it stands in.
// Text without a tag pair, a move or a result holds no game. The text is UTF-8;
// a game that is not is read as ISO 8859-1, whatever the others are. The
// games point into data, which must not change afterwards.
func Read(data []byte) []Game { return DefaultLimits.Read(data) }

// Read is the function Read with other limits.
func (l Limits) Read(data []byte) []Game {
	r := newReader(unsafe.String(unsafe.SliceData(data), len(data)), 1, l)
	var games []Game
	for {
		g, ok := r.game()
		if !ok {
			return games
		}
		if n := len(games); n >= l.Games {
			if n > 0 {
				games[n-1].Faults = append(games[n-1].Faults, Fault{Line: g.Line, Reason: FaultLimitGames})
			}
			return games
		}
		if len(games) == cap(games) {
			games = slices.Grow(games, max(4, len(games)))
		}
		games = append(games, g)
	}
}

// Next is the method Next within DefaultLimits.
func Next(text string, firstLine int) (g Game, end int) { return DefaultLimits.Next(text, firstLine) }

// Next reads the first game of text as Read would, whose first line has the number
// firstLine. The next game begins at offset end, which is len(text) when none
// follows; such a game is taken for the last of its packet. Text before the first
// game belongs to it, so that the pieces text[:end] are the packet again. Read
// piece by piece, a packet has the same games and the same faults as in one, except
// FaultLimitGames: l.Games does not count here. Text that holds no game gives the
// zero Game, whose Line is 0, and len(text).
func (l Limits) Next(text string, firstLine int) (g Game, end int) {
	r := newReader(text, firstLine, l)
	g, _ = r.game()
	return g, r.pos
}

// StartsGame reports whether text begins with an Event tag whose value is closed.
// Then a game that another one followed may be followed by text as well: if
// Next found that a game ends before rest, and StartsGame(text), then the game
// ends before text and is read alike.
func StartsGame(text string) bool {
	if text == "" || !isTag(text, 0) {
		return false
	}
	from, to, quote := tagName(text, 0)
	if rosterBit(text[from:to]) != rosterEvent {
		return false
	}
	end, _, _ := scanString(text, quote+1)
	return end < len(text) && text[end] == '"'
}

// CountLines returns how many line ends text has: LF, CR and CRLF.
func CountLines(text string) int { return lineEnds(text) }
