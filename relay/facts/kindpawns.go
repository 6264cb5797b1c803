package facts

// Pawns, files and squares.
const (
	// WeakSquare: a square on the side's third or fourth rank, on the files b to g, that no
	// pawn of the side defends or could ever defend by going straight on; a pawn of
	// the other side defends it, and the other side has a knight or bishop to put
	// there (a bishop that moves on that colour). No pawn stands on it. Side is the
	// side whose weakness it is. Squares: the square, the defending pawns.
	WeakSquare = iota + kindsOfPawns
	// Outpost: a knight or bishop of the side on a WeakSquare of the other. Squares: the
	// piece, the pawns that defend it.
	Outpost
	// OpenFile: a file without pawns. Neutral. Squares: its first and last square. Not
	// given when no rooks are left.
	OpenFile
	// HalfOpenFile: a file with pawns of the other side only, the side having a rook.
	// Squares: its first square for the side, the foremost pawn on it.
	HalfOpenFile
	// RooksOnOpenFile: the side's rooks on an open file. Squares: these rooks.
	RooksOnOpenFile
	// RooksOnHalfOpenFile: the side's rooks on a half-open file. Squares: these rooks,
	// then the pawn of the other side that stands nearest to them.
	RooksOnHalfOpenFile
	// Passed: a pawn with no enemy pawn further on, on its file or the files next to it,
	// and no pawn of its own further on its file. Amount is how many moves it is from
	// its last rank, a double step from the second rank counted as two.
	Passed
	// ProtectedPassed: a passed pawn that a pawn of its own defends. Amount as for
	// Passed; such a pawn is in both lists. Squares: the pawn, its defenders.
	ProtectedPassed
	// Isolated: a pawn without a pawn of its own on the files next to it.
	Isolated
	// Doubled: two or more pawns of the side on one file. Squares: these pawns.
	Doubled
	// Backward: a pawn, not isolated, that has no pawn of its own on the files next to it
	// level with it or further back, while an enemy pawn attacks the square
	// directly ahead, on which no pawn of its own stands. Whether its file is
	// half-open is not asked. Squares: the pawn,
	// the square ahead.
	Backward
	// Majority: the side has more pawns on a wing than the other, the wings being the
	// files a to d and e to h. Amount is how many more. Squares: its pawns there.
	Majority
)
