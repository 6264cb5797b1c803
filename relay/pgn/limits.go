package pgn

// Limits bound what one packet may cost. Whatever exceeds one is left out with a
// fault and the reading goes on, so that a broken game cannot hide the others.
// Memory stays within a fixed multiple of the packet's length in any case.
type Limits struct {
	Games          int // games per packet
	Plies          int // moves of a game's main line
	VariationMoves int // moves in all variations of a game together
	Nesting        int // variations inside variations
	MoveNotes      int // glyphs, comments and variations on one move, each
	Tags           int // tag pairs per game
	TagBytes       int // bytes of a tag value
	WordBytes      int // bytes of a word; the standard allows a symbol 255 (PGN 7)
	CommentBytes   int // bytes of a comment, commands included
	Faults         int // faults told per game, those of the game as a whole aside
}

// DefaultLimits hold for Read. They are far beyond any honest packet: a round of
// a big open has some hundred games, and the longest games some 500 plies.
var DefaultLimits = Limits{
	Games:          2_000,
	Plies:          1_200,
	VariationMoves: 20_000,
	Nesting:        64,
	MoveNotes:      100,
	Tags:           200,
	TagBytes:       1_024,
	WordBytes:      255,
	CommentBytes:   64 << 10,
	Faults:         100,
}
