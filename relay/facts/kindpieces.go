package facts

// How the pieces stand. Side is the side whose man is spoken of, the subject.
const (
	// Loose: a piece that no man of its own side defends, attacked or not. Pawns and
	// kings are not counted; a defender that is pinned counts as one; a defender behind
	// another man on the line does not.
	Loose = iota + kindsOfPieces
	// Hanging: a man other than the king on which the other side wins material by
	// exchange if it captures next. Squares: the man, then with what the best capture
	// begins. Amount is what is won. Captures en passant are not looked at.
	Hanging
	// AbsolutePin: a man that stands alone between its king and a bishop, rook or
	// queen of the other side on their line, so that it may not leave the line (FIDE
	// Laws 3.9.2). Squares: the man, the pinning piece, the king.
	AbsolutePin
	// RelativePin: a man other than the king that stands alone between a piece of its
	// own and a bishop, rook or queen of the other side, which attacks it. The piece
	// behind is worth more than the man, or worth as much and loose; were the man
	// taken off the board, the pinning piece would win material by exchange when it
	// captures the piece behind. A pawn on the file of the pinning piece, which can go
	// on along the line, is not counted. Squares: the man, the pinning piece, the
	// piece behind. Amount is what would be won.
	RelativePin
	// NoSafeSquare: a piece beyond its own first rank that has no safe move, whether or
	// not it is attacked. Not given while a king is in check.
	NoSafeSquare
	// Trapped: a piece that hangs and that no move of its side saves. After every legal
	// move, its own or another man's, what the move captured is less than what the
	// other side then wins by exchange on the piece's square or on the move's square of
	// arrival. Squares: the piece, then with what it is captured. Amount is the least
	// that is lost. What a check or a threat elsewhere would bring is not looked at.
	// Not given while a king is in check.
	Trapped
	// Trappable: a piece without a safe move that does not hang, and the other side has
	// a safe move after which it is Trapped. Move is that move. Squares: the piece,
	// the move's square of departure and of arrival. Amount is the least that is lost.
	// If the piece's side is on the move it has time to prevent it. Not given while a
	// king is in check.
	Trappable
	// SoleDefender: a piece or king that alone defends a man other than the king; the
	// man is attacked, does not hang, and would hang without it. Pawns are not counted
	// as sole defenders, nor is a man defended if another stands behind the
	// defender on the line. Squares: the defender, the man it defends. Amount is what
	// would be won without it.
	SoleDefender
	// Overloaded: a man, pawns and king included, that alone defends two men as in
	// SoleDefender; the other side captures the one, the defender recaptures, and the
	// exchange on the other then wins more than was given. Squares: the defender, the
	// man captured first, the other one; of several pairs the one that loses most.
	// Amount is what the three steps win. Not given while a king is in check.
	Overloaded
	// BadBishop: a bishop with at least two of its own side's pawns on the files c to f
	// standing on squares of its colour, each with an enemy pawn directly ahead, and the
	// bishop on no higher rank than the furthest of them. Squares: the bishop, these
	// pawns. Amount is the number of own pawns on its colour on all files.
	BadBishop
	// Mobility: Amount is the number of squares to which a piece has a safe move, the
	// side looked at as if it were on the move. Not given while a king is in check.
	Mobility
	// Squeezed: each side has at least four pieces and the same number of them, and the
	// side's have together at most half as many safe moves (see Mobility) as the
	// other's, which have at least thirty. Amount is their number for the side. No
	// squares. The numbers are ours.
	Squeezed
)

// The numbers of Squeezed.
const (
	squeezedPieces = 4
	squeezedMoves  = 30
)
