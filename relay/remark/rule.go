package remark

// Rule is what makes a finding. Its doc comment is its definition; the squares of its
// remarks are given in their order. The side spoken of is called the side, the other one
// the enemy. "Quiet" is a position after a move that captured nothing, in which the side to move
// is not in check, no man of the other and no piece of its own hangs, and no pawn on its seventh rank
// has its way free. Chances are only said when a search bears them out, see bearsOut; "even" means
// that no side is ahead by 300 or has a passed pawn on its sixth or seventh rank.
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
	// captured nothing and answered no check; it is unguarded, or to take it wins all of it. The enemy is on the move, not in check and without a
	// mate, and wins at least 200 whatever the reply, by what is then captured where the reply went.
	// Squares: the piece, with what it is captured.
	PieceHangs
	// PieceTrapped: facts.Trapped for at least 200 of a piece not pinned to its king, the side being on
	// the move when it came; a search finds no way out. Squares: the piece, with what it is captured.
	PieceTrapped
	// TrapOffered: facts.Trappable for at least 200 of a piece not pinned to its king, the enemy being
	// on the move, nothing of as much worth hanging. Squares: the piece, departure and arrival of the move.
	TrapOffered
	// NoSquareLeft: facts.Trappable for at least 200, the side being on the move and nothing of its
	// own hanging. Squares as for TrapOffered.
	NoSquareLeft
	// NoSafeSquare: facts.NoSafeSquare of a knight beyond its second rank that does not hang and is not
	// pinned to its king, unguarded or attacked by as many as guard it, from move 9 on. Squares: the
	// piece.
	NoSafeSquare
	// PinAttacked: a pinned knight, bishop, rook or queen (facts.AbsolutePin, RelativePin) that hangs,
	// is attacked by another man than the pinning one, and could not be moved safely, its side being
	// on the move and losing a piece whatever it does. Squares: the man, the pinning man, the man behind, the other attacker.
	PinAttacked
	// MateForced: the side is on the move, has no mate in one, and mates in two or three moves, each of them a
	// check, whatever is replied. Squares: departure, arrival, the king. Amount is in how many moves.
	MateForced
	// PinLasting: a knight, bishop or rook has been pinned to its king or queen for two plies, from
	// move 13 on; the pinning man is not attacked, the king cannot castle out of it, and a man pinned
	// to the queen is attacked by as many as guard it. Squares: the man, the pinning man, the man behind.
	PinLasting
)

// Kings.
const (
	// CastlingPrevented: facts.CastlingPrevented by one or two men, both sides having a queen; on the
	// queen's side only without the right to castle on the other; not soon after the next three; the men named do not hang, and
	// nothing behind them would prevent it if they were gone. Squares: king, the first square that is
	// attacked, the men that attack it or the next.
	CastlingPrevented Rule = iota + 32
	// CastlingGivenUp: with a move of its king, or of its rook, the side has lost its last right to
	// castle, both sides have a queen, the enemy has two more pieces, and the king is on the files d
	// to f of its first two ranks, but not on the f-file with pawns on f to h on their first or second
	// step; neither check nor soon after CentreOpen or KingLate. Squares: the king.
	CastlingGivenUp
	// CentreOpen: facts.KingInCentre from move 10 on, a d- or e-file without pawns on or next to the
	// king's with an enemy rook or queen on it, no castling available, the enemy
	// king not in the centre; conditions as before. Squares: the king, those men.
	CentreOpen
	// FileToKing: facts.OpenLineToKing of a king that is not on the d- or e-file, with an enemy rook
	// or queen on the file, the enemy having a queen; nobody in check. Squares: the king, those men.
	FileToKing
	// KingLate: facts.KingInCentre from move 15 on, the enemy king not being in the centre and the
	// enemy having four pieces; no check and not soon after CentreOpen or CastlingGivenUp. Squares: the
	// king.
	KingLate
	// OppositeWings: one king on the files a to c and the other on g or h, each on its first two
	// ranks, both sides with a queen, since the second castled. No squares; Side is White.
	OppositeWings
	// KingUnderFire: three enemy pieces or more, the queen among them, attack the king's square or
	// squares next to it, and at least two fewer of the side's pieces do; the king is on its first two
	// ranks and not in check. Squares: the king. Amount is the number of attackers times ten, and that
	// of defenders.
	KingUnderFire
	// BackRank: a king on its first rank, two pawns of its own before it and a man of its own or an
	// attacked square on every other square there, no rook or queen of its own on the rank, an enemy
	// rook or queen on a file without pawns, and a mate on the rank by one in two moves in a row.
	// Squares: the king, that man.
	BackRank
	// FianchettoGone: the king on the files g or h (or a or b) of its first rank, a pawn of the side
	// on its g3 (b3) between pawns on f2 and h2 or h3 (c2, a2 or a3), no bishop of the side on g2's
	// colour since one was captured, and an enemy queen and bishop of that colour. Squares: the king,
	// the pawn on g3 (b3).
	FianchettoGone
	// CoverGone: facts.PawnCover of at most one pawn, beside the king counted in, while the enemy has a queen and two more pieces,
	// since a pawn of it moved or was captured. Squares: the king, the pawn left. Amount is the number
	// left.
	CoverGone
)

// Pieces.
const (
	// KnightOutpost: facts.Outpost of a knight that no enemy knight or bishop attacks and that does
	// not hang, the enemy having pawns. Squares: the knight, the pawns that defend it.
	KnightOutpost Rule = iota + 64
	// FileTaken: the side has a rook, the enemy neither rook nor queen, on the only open file, both
	// having rooks; no other man stands before it up to the fifth rank. Not soon after CentreOpen,
	// FileToKing or PinLasting. Squares: the rook.
	FileTaken
	// FileDoubled: as FileTaken with two rooks; other files may be open. Squares: the rooks.
	FileDoubled
	// SeventhRank: a rook on the side's seventh rank that does not hang, with an enemy pawn there, the
	// enemy king on its first rank or two pawns; no check, no enemy rook on its own seventh rank. Squares: the rook.
	SeventhRank
	// SeventhRankDoubled: two rooks there that do not hang, enemy king or pawns as for SeventhRank. Squares: the rooks.
	SeventhRankDoubled
	// Hole: facts.WeakSquare, empty, on the files c to f, since a pawn of the side left a file next to
	// it, from move 9 on, an enemy knight and no knight or bishop of the side attacking the square,
	// each side having at least four pieces, even. Squares: the square, the enemy pawn that defends it, the
	// knight.
	Hole
	// AtHome: before moves 11 to 14 two or more of the side's knights and bishops stand where they
	// stood at the start of a usual game, and have not moved, and none of the enemy's. Squares: these pieces.
	AtHome
	// LoosePieces: exactly two pieces of the side beyond its second rank, no queen, are loose
	// (facts.Loose) and do not hang, from move 9 on, even, the enemy having its queen and two more
	// pieces, one of which can attack both from a square that is not attacked.
	// Squares: these pieces.
	LoosePieces
	// BadBishop: facts.BadBishop in an ending, that is without queens and with at most two pieces on
	// each side; the enemy has a knight or bishop. Squares: the bishop, the pawns.
	BadBishop
	// ShortOfMoves: facts.Squeezed. Amount is the number of safe moves; no squares.
	ShortOfMoves
)
