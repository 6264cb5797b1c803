package remark

// What is told when little happens. Each is said once of a game, or of a side; none while a chance or
// the clock has the word. "Middlegame" means that both sides have a queen and two pieces more at least.
const (
	// NothingTaken: all men are on the board, from move 12 on. No squares.
	NothingTaken Rule = iota + 192
	// PiecesAllOn: a pawn has been captured and no piece, from move 14 on. No squares.
	PiecesAllOn
	// NobodyCastled: both sides have a right to castle and a queen, from move 11 on. No squares.
	NobodyCastled
	// CentreEmpty: middlegame; no pawn on the files d and e, from move 8 on. No squares.
	CentreEmpty
	// PawnsAlike: both sides have as many pawns on every file, and five to seven of them, from move 10 on, which stand
	// much the same; the kings do not stand on opposite wings. No squares.
	PawnsAlike
	// PawnsTouch: from move 10 on, a white pawn and a black one on the files c to f have attacked each other for four plies,
	// and no others do. Squares: the white pawn, the black one.
	PawnsTouch
	// PawnsLocked: five pawns or more of each side have an enemy pawn ahead. Amount is how many. No squares.
	PawnsLocked
	// FileFree: from move 12 on one file is open, no rook or queen stands on it, and both sides have two rooks.
	// Amount is the file, a being 0. No squares.
	FileFree
	// SquareFought: middlegame; a pawn stands on one of d4, e4, d5 and e5, at least three men of each side that are
	// not pinned to their kings attack the square, and more men than any other of these. Squares: the square. Amount is White's men times ten, and Black's.
	SquareFought
	// NoCaptureLong: twenty plies have passed since the last capture, of which there was one, and the last man moved cannot be captured; each side has four men more than
	// its king. No squares.
	NoCaptureLong
	// QueensFace: the queens have attacked each other for two plies. Squares: White's, Black's.
	QueensFace
	// MinorsGone: neither side has a knight or bishop, both have two rooks or queens or more. No squares.
	MinorsGone
	// RooksGone: neither side has a rook, and both have a queen. No squares.
	RooksGone
	// BishopsAlike: each side has one bishop, both of one colour, and no knight. No squares.
	BishopsAlike
	// OneWing: no queens; there are three pawns or more, of both sides, and all stand on the files a to d, or
	// e to h; from move 25 on. No squares.
	OneWing
	// LastPawn: one pawn is left on the board, with a piece on each side. Squares: the pawn.
	LastPawn
	// PassersBoth: both sides have one passed pawn, from its fourth rank on, and neither hangs. Squares:
	// White's, Black's.
	PassersBoth
	// PawnsLeft: no queens and at most two pieces on each side; the last pawns captured left other numbers, of
	// eight pawns or fewer. No squares. Amount is White's pawns times ten, and Black's.
	PawnsLeft
	// Opposition: nothing but kings and pawns; the kings stand on a file or rank with one square between, so that
	// the side not on the move has the opposition; from move 30 on. Squares: White's king, Black's. Amount
	// is 1 if White is not on the move.
	Opposition
	// NoOpenFile: middlegame from move 16 on; every file has a pawn, and all four rooks are on the board. Even. No
	// squares.
	NoOpenFile
	// OnePieceOff: from move 18 on each side has six of its seven pieces. No squares.
	OnePieceOff
	// PawnsAllOn: from move 12 on all pawns are on the board and a piece of each side is not. No squares.
	PawnsAllOn
	// NoCheckYet: the game began as usual, and up to move 20 nobody has given check. No squares.
	NoCheckYet
	// NoPasser: no queens and at most two pieces on each side, from move 25 on; each side has three pawns or more,
	// and none is passed. No squares.
	NoPasser
)

// The same, of one side.
const (
	// MoreSpace: middlegame from move 10 on; the side has three pawns or more on its fifth rank or further, and
	// at least two more than the enemy. Even, as with all that follow up to IslandsMore. Amount is how many, times
	// ten, and the enemy's.
	MoreSpace Rule = iota + 224
	// Unmoved: the game began as usual; from move 16 on one knight or bishop of the side has not moved and
	// none of the enemy's. Squares: the piece.
	Unmoved
	// RookUnmoved: the game began as usual; from move 20 on one rook of the side has not moved, nor has its side
	// castled with it, and every rook of the enemy has; each side has three pieces. Squares: the rook.
	RookUnmoved
	// OneCastled: middlegame from move 9 on; the side has castled, the enemy has not and still may. Even. Squares:
	// the king.
	OneCastled
	// BroadCentre: middlegame from move 6 on; the side has pawns on d4 and e4, as it sees the board, and the enemy
	// none on its fourth rank on the files c to f. Even. Squares: the pawns.
	BroadCentre
	// LongDiagonal: middlegame; a bishop on the second square of a long diagonal attacks up to the last but one,
	// and the enemy has no bishop of that colour. Squares: the bishop.
	LongDiagonal
	// Immobile: from move 12 on pawns of its own have taken every square from a knight, bishop or queen of the
	// side, for four plies; it has left its first square. Squares: the piece.
	Immobile
	// PawnStorm: middlegame; two pawns of the side on the files f to h have come to their fourth rank or
	// further, the enemy king stands behind them on its first two ranks, the side's own king does not; or all this
	// on the files a to c. Squares: the pawns.
	PawnStorm
	// IslandsMore: from move 18 on the side's pawns are in two more groups of neighbouring files than the
	// enemy's, each side having two pieces. Amount is how many, times ten, and the enemy's.
	IslandsMore
	// DoubledPawns: middlegame; two pawns of the side stand on one file of c to f, and no two of the enemy's on
	// any. Squares: the pawns.
	DoubledPawns
	// KingGuardsAlone: middlegame; an enemy queen and another man attack a pawn of the side on its second rank,
	// next to its king on its first, or would behind each other, and only the king guards it. Squares: the pawn.
	KingGuardsAlone
	// KingWalked: middlegame; the king stands on its fourth rank or further. Squares: the king.
	KingWalked
	// KingActive: from move 30 on, no queens and at most two pieces on each side; the king has come to its
	// fifth rank or further, the enemy's is on its first two. Squares: the king, the enemy's.
	KingActive
	// PasserAside: no queens and at most two pieces on each side; a passed pawn of the side, the only one there
	// is, has no pawn within two files of its own, and there are three others. Squares: the pawn.
	PasserAside
	// BishopForKnight: facts.BishopAgainstKnight. No squares.
	BishopForKnight
	// NoPawnsLeft: not soon after the pawns were counted; the side has pieces and no pawns, the enemy has pawns. No squares.
	NoPawnsLeft
	// SameMan: up to move 15 the last three moves of the side were by one knight, bishop or queen, which captured
	// nothing, gave no check and left no attack. Squares: the man.
	SameMan
	// ChecksInRow: the last three moves of the side gave check, the last of them captured nothing, and the man
	// that gave it is not attacked. No squares.
	ChecksInRow
	// QueenOften: in its first ten moves the side has moved its queen three times. No squares.
	QueenOften
	// FileHeld: as FileTaken with other open files, each side having three pieces. Squares: the rook.
	FileHeld
	// PawnThorn: middlegame; a pawn of the side on its sixth rank that does not hang, no more than one file from
	// the enemy king on its first two ranks, which is not on the files d and e. Squares: the pawn.
	PawnThorn
	// KingCutOff: no queens and at most two pieces on each side; a rook of the side stands on a file between the
	// enemy king, on the next file, and its own passed pawn, which has left its first square. Squares: the rook, the king, the pawn.
	KingCutOff
)
