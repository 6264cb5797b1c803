package facts

// How games end without a winner. The Laws are FIDE's of 2023.
const (
	// Repetition: the position has now occurred Amount times, at least twice: same side
	// to move, same men, same castling rights, same legal captures en passant (9.2.3). On
	// the third a draw can be claimed (9.2), on the fifth the game is drawn (9.6.1).
	// Needs the earlier positions. Neutral, no squares.
	Repetition = iota + kindsOfDraws
	// FiftyMoves: Amount half-moves, at least 80, have passed without a capture or a
	// pawn move. With 100 the player on the move can claim a draw (9.3), with 150 the
	// game is drawn (9.6.2) unless the last move mated; in a mate it is not given.
	// Neutral, no squares.
	FiftyMoves
	// Stalemated: the side to move has no legal move and is not in check (5.2.1).
	// Squares: its king.
	Stalemated
	// DeadPosition: no series of legal moves mates either king (5.2.2). Only these are
	// told: king against king; a single knight or bishop besides the kings; any number
	// of bishops that all move on squares of one colour; and walls of pawns, with
	// nothing but kings and pawns, where every pawn stands against an enemy pawn on
	// its file, no pawn can capture, and no king, going over squares that enemy pawns do not
	// attack and pawns do not stand on, ever comes next to an enemy pawn that no pawn
	// defends. Neutral, no squares.
	DeadPosition
	// CannotWin: the side has nothing but its king. If its opponent oversteps the time
	// the game is drawn (6.9). Other sides that cannot mate are not told. Not given
	// in a dead position. Squares: the king.
	CannotWin
)

// When the count of FiftyMoves is told, in half-moves.
const fiftyFrom = 80
