package facts

// What is on the board. Kinds named after an imbalance count men, not values: they hold
// whatever the position. At most one of PawnsUp to QueenForPieces holds, and none for
// imbalances that have no name here. "Minor" is a knight or bishop, and the side has
// so many more or fewer than the other of each kind; what is not named is equal, pawns
// apart. Squares are the men that the name speaks of: the side's, then the other's.
const (
	// Material: the side's men are worth more than the other's. Amount is the
	// difference in centipawns.
	Material = iota + kindsOfMaterial
	// PawnsUp: equal queens, rooks and minors, Amount pawns more. No squares.
	PawnsUp
	// PieceUp: one minor more, and no fewer pawns. Amount is the pawns it has more.
	PieceUp
	// PieceForPawns: one minor more, and fewer pawns. Amount is the pawns it has fewer.
	PieceForPawns
	// ExchangeUp: one rook more, one minor fewer. Amount is the pawns it has more,
	// negative for fewer.
	ExchangeUp
	// PiecesForRook: two minors more, one rook fewer. Amount as for ExchangeUp.
	PiecesForRook
	// RookUp: one rook more. Amount as for ExchangeUp.
	RookUp
	// QueenUp: one queen more. Amount as for ExchangeUp.
	QueenUp
	// QueenForRook: one queen more, one rook fewer. Amount as for ExchangeUp.
	QueenForRook
	// QueenForRooks: one queen more, two rooks fewer. Amount as for ExchangeUp.
	QueenForRooks
	// QueenForRookAndPiece: one queen more, one rook and one minor fewer. Amount as for
	// ExchangeUp.
	QueenForRookAndPiece
	// QueenForPieces: one queen more, three minors fewer. Amount as for ExchangeUp.
	QueenForPieces
	// BishopPair: the side has bishops on squares of both colours, the other has not.
	BishopPair
	// OppositeBishops: each side has exactly one bishop, on squares of different
	// colours. Amount is 1 if there are no other pieces, 0 otherwise. Neutral;
	// squares are White's bishop, then Black's.
	OppositeBishops
	// BishopAgainstKnight: the side's only minor is a bishop, the other's a knight.
	BishopAgainstKnight
)
