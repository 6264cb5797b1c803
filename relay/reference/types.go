package reference

import "clocktell/relay/clock"

// Result is how a game ended.
type Result uint8

const (
	ResultUnknown Result = iota
	WhiteWon
	Drawn
	BlackWon
)

// Venue is where a game was played, as far as its tags say so.
type Venue uint8

const (
	VenueUnknown Venue = iota
	OverTheBoard
	Elsewhere // on a server, by mail, by telephone
)

// GameID numbers the games of an index in the order in which they were added,
// from 0.
type GameID uint32

// Game is what is kept of a game.
type Game struct {
	White, Black, Event      string // at most NameMost bytes are kept
	WhiteRating, BlackRating int    // 0: unknown; so is what is not within 1 to RatingMost
	Year                     int    // 0: unknown; so is what is not within 1 to YearMost
	Result                   Result
	Class                    clock.Class
	Venue                    Venue
}

// Limits of what is kept of a game.
const (
	NameMost   = 255
	RatingMost = 4095
	YearMost   = 4095
)

// BlackMoves is the bit of Occurrence.Move that is set when Black is on move.
const BlackMoves uint16 = 0x8000

// Occurrence says that a game reached a position and went on with a move. A
// game has one Occurrence for each position at most: the first time it was there.
type Occurrence struct {
	Position uint64 // hash of the position, side to move included
	Move     uint16 // 15 bits of the move, and BlackMoves; a move of 0: the game, or what is kept of it, ends here
	Game     GameID
}

// Compare orders occurrences as Writer.Add wants them.
func (o Occurrence) Compare(other Occurrence) int {
	switch {
	case o.Position != other.Position:
		return order(o.Position < other.Position)
	case o.Move != other.Move:
		return order(o.Move < other.Move)
	case o.Game != other.Game:
		return order(o.Game < other.Game)
	}
	return 0
}

func order(less bool) int {
	if less {
		return -1
	}
	return 1
}

// Head is what an index says about itself. Nothing in it may differ between two
// builds from the same games.
type Head struct {
	Depth   int    // plies up to which games were followed
	Hashing uint64 // says how positions were hashed: the hash of the start position, for instance. See Index.Head
	Filter  Filter // what a game had to pass to be in the index; only told
}

// Answer is what an index knows about a position. Lookup reuses the memory of
// the Answer it is given, MoveAnswer.Examples included.
type Answer struct {
	Games, White, Draws, Black int          // games that reached the position and pass the filter; the rest of Games has no known result
	Unfiltered                 int          // games that reached it, filter or not; 0: the position is unknown
	Moves                      []MoveAnswer // most played first, then by Move; only those of games that pass
	Last                       GameID       // the latest of Games, by year and then number; only if Games > 0
	LastMove                   uint16       // what Last went on with; 0: nothing

	examples            []GameID
	block, body, detail []byte
}

// MoveAnswer is what an index knows about a move in a position.
type MoveAnswer struct {
	Move                       uint16 // without BlackMoves
	Games, White, Draws, Black int    // as in Answer
	BestRating, MeanRating     int    // of the player who made the move, where known, else 0
	LastYear                   int    // 0: unknown
	// Examples are, each once: the highest rated game, the latest by year and
	// then number, the second highest rated. A game is rated as the lower of its
	// players is, 0 if one is unknown; the later of two is the higher.
	Examples []GameID
}
