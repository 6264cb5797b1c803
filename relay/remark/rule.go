package remark

// Rule is what makes a finding. Its doc comment is its definition; the squares of its
// remarks are given in their order. The side spoken of is called the side, the other one
// the enemy. "Quiet" is a position after a move that captured nothing, in which the side to move
// is not in check and no man of the other hangs.
type Rule uint8

// Chances and threats, for one move.
const (
	_ Rule = iota
	// MateHere: facts.MateOffer. Squares: departure, arrival, the king.
	MateHere
	// MateThreatened: facts.MateThreat; the side to move has no mate itself, and neither the man that
	// moved last nor the one that would mate hangs. Squares as above.
	MateThreatened
	// ForkOffered: facts.Fork that wins at least 200 and 200 more than the best of what hangs, not in
	// check, the fork being no promotion, with no mate at hand and none in reply. Squares: departure,
	// arrival, targets. Amount is what is won.
	ForkOffered
	// SkewerOffered: facts.Skewer, on the same terms. Squares: departure, arrival, the front target,
	// the one behind.
	SkewerOffered
	// DiscoveryOffered: facts.DiscoveredAttack, on the same terms. Squares: departure, arrival, the
	// attacker behind, its target, another.
	DiscoveryOffered
	// DoubleDuty: facts.Overloaded, the enemy being on the move and winning at least 200 and 200 more
	// than by what hangs. Squares: the defender, the man captured first, the other.
	DoubleDuty
	// GuardRemovable: facts.SoleDefender of a piece, the defender no king; the enemy is on the move,
	// and capturing the defender wins at least 200 whatever the reply, by what is then captured on the
	// two squares or where the reply went, and 200 more than what hangs. Squares: the defender, the
	// piece it guards, with what it is captured.
	GuardRemovable
	// PieceHangs: facts.Hanging of a piece that did not hang before the side's last move, which
	// captured nothing and answered no check. The enemy is on the move, not in check and without a
	// mate, and wins at least 200 whatever the reply, by what is then captured where the reply went.
	// Squares: the piece, with what it is captured.
	PieceHangs
	// PieceTrapped: facts.Trapped for at least 200, the side being on the move when it came. Squares:
	// the piece, with what it is captured.
	PieceTrapped
	// TrapOffered: facts.Trappable for at least 200, the enemy being on the move, nothing of as much
	// worth hanging. Squares: the piece, departure and arrival of the move.
	TrapOffered
	// NoSquareLeft: facts.Trappable for at least 200, the side being on the move and nothing of its
	// own hanging. Squares as for TrapOffered.
	NoSquareLeft
	// NoSafeSquare: facts.NoSafeSquare of a knight or queen beyond its second rank that does not hang,
	// from move 9 on. Squares: the piece.
	NoSafeSquare
	// PinAttacked: a pinned knight, bishop, rook or queen (facts.AbsolutePin, RelativePin) that hangs,
	// is attacked by another man than the pinning one, and could not be moved safely, its side being
	// on the move. Squares: the man, the pinning man, the man behind, the other attacker.
	PinAttacked
	// PinLasting: a knight, bishop or rook has been pinned to its king or queen for two plies, from
	// move 13 on. Squares: the man, the pinning man, the man behind.
	PinLasting
	// PieceOffered: the side's last move has put a piece that did not hang where it hangs, guarded, or
	// with a capture or check; to take it, by an exchange there, wins at least 200 more than was
	// captured; the enemy has no mate. Squares: the piece, with what it is captured.
	PieceOffered
	// OnlyMove: the side is in check and has one legal move, which does not capture the man that gives
	// it, from move 10 on; the enemy has a queen or two pieces. Squares: the king, a man giving check.
	OnlyMove
)

// Kings.
const (
	// CastlingPrevented: facts.CastlingPrevented by one or two men, both sides having a queen; on the
	// queen's side only if the king cannot castle on the other now; the men named do not hang, and
	// nothing behind them would prevent it if they were gone. Squares: king, the first square that is
	// attacked, the men that attack it or the next.
	CastlingPrevented Rule = iota + 32
	// CastlingGivenUp: with a move of its king, or of its rook, the side has lost its last right to
	// castle, both sides have a queen, the enemy has two more pieces, and the king is on the files d
	// to f of its first two ranks. Squares: the king.
	CastlingGivenUp
	// CentreOpen: facts.KingInCentre from move 10 on, a d- or e-file without pawns on or next to the
	// king's with an enemy rook or queen on it, and no castling available. Squares: the king, those
	// men.
	CentreOpen
	// FileToKing: facts.OpenLineToKing of a king that is not on the d- or e-file, with an enemy rook
	// or queen on the file, the enemy having a queen. Squares: the king, those men.
	FileToKing
	// KingLate: facts.KingInCentre from move 15 on, the enemy king not being in the centre and the
	// enemy having four pieces. Squares: the king.
	KingLate
	// OppositeWings: one king on the files a to c and the other on g or h, each on its first two
	// ranks, both sides with a queen, since the second castled. No squares; Side is White.
	OppositeWings
	// KingUnderFire: three enemy pieces or more, the queen among them, attack the king's square or
	// squares next to it, and at least two fewer of the side's pieces do; the king is on its first two
	// ranks and not in check. Squares: the king. Amount is the number of attackers times ten, and that
	// of defenders.
	KingUnderFire
	// BackRank: a king on its first rank, with a man of its own or an attacked square on every square
	// before it, no rook or queen of its own on the rank, and an enemy rook or queen on a file without
	// pawns. Squares: the king, that man.
	BackRank
	// FianchettoGone: the king on the files g or h (or a or b) of its first rank, a pawn of the side
	// on its g3 (b3) between pawns on f2 and h2 or h3 (c2, a2 or a3), no bishop of the side on g2's
	// colour since one was captured, and an enemy queen and bishop of that colour. Squares: the king,
	// the pawn on g3 (b3).
	FianchettoGone
	// CoverGone: facts.PawnCover of at most one pawn while the enemy has a queen and two more pieces,
	// since a pawn of it moved or was captured. Squares: the king, the pawn left. Amount is the number
	// left.
	CoverGone
)

// Pieces.
const (
	// KnightOutpost: facts.Outpost of a knight that no enemy knight or bishop attacks and that does
	// not hang. Squares: the knight, the pawns that defend it.
	KnightOutpost Rule = iota + 64
	// FileTaken: the side has a rook, the enemy neither rook nor queen, on the only open file, both
	// having rooks. Squares: the rook.
	FileTaken
	// FileDoubled: as FileTaken with two rooks; other files may be open. Squares: the rooks.
	FileDoubled
	// SeventhRank: a rook on the side's seventh rank that does not hang, the enemy king on its first
	// rank or two enemy pawns on the seventh. Squares: the rook.
	SeventhRank
	// SeventhRankDoubled: as SeventhRank with two rooks. Squares: the rooks.
	SeventhRankDoubled
	// Hole: facts.WeakSquare, empty, on the files c to f, since a pawn of the side left a file next to
	// it, from move 9 on, an enemy knight and no knight or bishop of the side attacking the square,
	// each side having at least four pieces. Squares: the square, the enemy pawn that defends it, the
	// knight.
	Hole
	// AtHome: before moves 11 to 14 two or more of the side's knights and bishops stand where they
	// stood at the start of a usual game, and none of the enemy's. Squares: these pieces.
	AtHome
	// LoosePieces: exactly two pieces of the side beyond its second rank, no queen, are loose
	// (facts.Loose) and do not hang, from move 9 on, the enemy having its queen and two more pieces.
	// Squares: these pieces.
	LoosePieces
	// BadBishop: facts.BadBishop in an ending, that is without queens and with at most two pieces on
	// each side; the enemy has a knight or bishop. Squares: the bishop, the pawns.
	BadBishop
	// ShortOfMoves: facts.Squeezed. Amount is the number of safe moves; no squares.
	ShortOfMoves
)

// Pawns.
const (
	// PasserFar: a passed pawn that has come to its sixth or seventh rank and does not hang. Squares:
	// the pawn. Amount is how many moves it is from its last rank.
	PasserFar Rule = iota + 96
	// PassersConnected: two passed pawns on neighbouring files, no more than one rank apart, one of
	// them at least on its fourth rank. Squares: the pawns.
	PassersConnected
	// PasserProtected: facts.ProtectedPassed from the fourth rank on. Squares: the pawn, a defender.
	PasserProtected
	// PasserNew: facts.Passed from the fourth rank on. Squares: the pawn.
	PasserNew
	// PasserBlocked: an enemy knight or bishop has moved to the square ahead of a passed pawn on its
	// fifth rank or further. Squares: the pawn, the man ahead.
	PasserBlocked
	// OutsideSquare: in a pawn ending a passed pawn with a free way that the enemy king cannot catch:
	// the king is further from the pawn's last square than the pawn, the side to move counted in.
	// Squares: the pawn, the king.
	OutsideSquare
	// PasserBacked: without queens, a rook of the side has gone behind its passed pawn with nothing
	// between; the pawn is on its third rank or further and the enemy has a rook. Squares: the pawn,
	// the rook.
	PasserBacked
	// IsolatedQueensPawn: facts.Isolated on the d-file on the side's fourth rank, no enemy pawn on the
	// file, each side having at least four pieces. Squares: the pawn.
	IsolatedQueensPawn
	// DoubledIsolated: facts.Doubled pawns on the files b to g that are all isolated. Squares: the
	// pawns.
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
	// stood for two plies; PawnUp not soon after EndingBegun, which counts the pawns. No squares.
	// Amount as for the fact.
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
	// one of the rules above was said. No squares.
	LevelAgain
	// TwoBishops: facts.BishopPair, both sides having equally many knights and bishops, and the side a
	// rook or queen. No squares.
	TwoBishops
	// OppositeBishops: facts.OppositeBishops with no knights on the board. Amount is 1 without other
	// pieces, else 0. No squares.
	OppositeBishops
	// EndingBegun: both sides have one piece besides king and pawns and these are of the same kind, or
	// both two rooks, or none have any; not two bishops of opposite colours. There are pawns. Amount
	// is White's pawns times ten, and Black's. No squares. Side is White. Kind is the kind of piece,
	// Pairs how many each side has.
	EndingBegun
	// QueensOff: neither side has a queen, before move 20. No squares.
	QueensOff
	// QueensGone: neither side has a queen any more, from move 20 on, each has one to three pieces, and
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
