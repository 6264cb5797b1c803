package remark

// Pawns.
const (
	// PasserFar: a passed pawn that has come to its sixth or seventh rank and does not hang, in no
	// exchange or check, no piece hanging, no mate just threatened, no passed pawn of the enemy further on, and it can neither promote nor be captured from its
	// seventh at once. Squares: the pawn. Amount is how many moves it is from its last rank.
	PasserFar Rule = iota + 96
	// PassersConnected: two passed pawns on neighbouring files, no more than one rank apart, one of
	// them at least on its fourth rank, while the enemy has pawns. Squares: the pawns.
	PassersConnected
	// PasserProtected: facts.ProtectedPassed from the fourth rank on, as PasserNew. Squares: the pawn, a
	// defender.
	PasserProtected
	// PasserNew: facts.Passed from the fourth rank on, having become so lately; no passed pawn of the
	// side is further on, the enemy has pawns, but no passed one on its sixth or seventh rank. Squares:
	// the pawn.
	PasserNew
	// PasserBlocked: an enemy knight or bishop has moved to the square ahead of a passed pawn on its
	// fifth rank or further. Squares: the pawn, the man ahead.
	PasserBlocked
	// OutsideSquare: in a pawn ending a passed pawn with a free way that the enemy king cannot catch:
	// the king is further from the pawn's last square than the pawn, the side to move counted in, and
	// the enemy has no passed pawn to race it.
	// Squares: the pawn, the king.
	OutsideSquare
	// PasserBacked: without queens, a rook of the side has gone behind its passed pawn with nothing
	// between; the pawn is on its third rank or further and the enemy has a rook. Squares: the pawn,
	// the rook.
	PasserBacked
	// IsolatedQueensPawn: even; facts.Isolated on the d-file on the side's fourth rank, no enemy pawn on the
	// file, each side having at least four pieces. Squares: the pawn.
	IsolatedQueensPawn
	// DoubledIsolated: facts.Doubled pawns on the files b to g that are all isolated, the enemy having no doubled
	// ones, even, as with all
	// that follow but PassersFar. Squares: the pawns.
	DoubledIsolated
	// BackwardAttacked: facts.Backward, the pawn attacked by an enemy rook on its file, where the
	// enemy has no pawn, and not hanging. Squares: the pawn, the rook.
	BackwardAttacked
	// CentreClosed: on the d-file and on the e-file one white pawn stands directly before a black one,
	// from move 11 on. Squares: the white pawns, the black ones; Side is White.
	CentreClosed
	// IsolatedAttacked: facts.Isolated, no passed pawn, otherwise as BackwardAttacked. Squares: the
	// pawn, the rook.
	IsolatedAttacked
	// WingMajority: facts.Majority in an ending as in BadBishop, the enemy having the majority on the
	// other wing and no pawn being passed. No squares. Amount is how many more.
	WingMajority
	// PassersFar: two passed pawns from the fifth rank on that do not hang, not on neighbouring files,
	// while the enemy has pawns. Squares: the pawns.
	PassersFar
)

// Material, once the exchange is over.
const (
	// PawnUp and those up to QueenForPieces: the fact of the same name in a quiet position, having
	// stood for two plies, with nothing hanging at all; PawnUp from move 7 on and not soon after
	// EndingBegun, which counts the pawns; RookUp and QueenUp only while the enemy has pieces. No
	// squares. Amount as for the fact.
	PawnUp Rule = iota + 128
	PieceUp
	PieceForPawns
	ExchangeUp
	PiecesForRook
	RookUp
	QueenUp
	QueenForRook
	QueenForRooks
	QueenForRookAndPiece
	QueenForPieces
	// LevelAgain: as many pawns, rooks, queens, and knights and bishops together on both sides, after
	// one of the rules above was said, and within five plies of a quiet position where they were not;
	// not soon after EndingBegun. No squares.
	LevelAgain
	// TwoBishops: facts.BishopPair, even, both sides having equally many knights and bishops, and the side a
	// rook or queen. No squares.
	TwoBishops
	// OppositeBishops: facts.OppositeBishops with no knights on the board. Amount is 1 without other
	// pieces, else 0. No squares.
	OppositeBishops
	// EndingBegun: both sides have one piece besides king and pawns and these are of the same kind, or
	// both two rooks, or none have any; not two bishops of opposite colours. There are pawns. Each kind
	// is said once. Amount
	// is White's pawns times ten, and Black's. No squares. Side is White. Kind is the kind of piece,
	// Pairs how many each side has.
	EndingBegun
	// QueensOff: neither side has a queen, as one had at the start, before move 20. No squares.
	QueensOff
	// QueensGone: neither side has a queen any more, as one had at the start, from move 20 on, each has one to three pieces, and
	// it is no ending as in EndingBegun or OppositeBishops. No squares. Side is White. Amount is the
	// pieces, see Remark.Pieces.
	QueensGone
)

// Draws.
const (
	// PositionTwice: facts.Repetition of 2. No squares.
	PositionTwice Rule = iota + 160
	// PositionThrice: facts.Repetition of 3 or more. No squares.
	PositionThrice
	// FiftyNear: facts.FiftyMoves below 100; Amount is 80 or 90, the half-moves passed. No squares.
	FiftyNear
	// FiftyReached: facts.FiftyMoves from 100 on. No squares.
	FiftyReached
	// DeadDraw: facts.DeadPosition. No squares.
	DeadDraw
	// LoneKing: facts.CannotWin, the enemy having neither queen nor rook. No squares.
	LoneKing
)
