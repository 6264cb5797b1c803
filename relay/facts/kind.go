package facts

// Kind is a kind of fact. Its doc comment is its definition.
type Kind uint8

// Where the kinds of each group begin.
const (
	kindsOfMaterial Kind = 1
	kindsOfPieces   Kind = 32
	kindsOfTactics  Kind = 64
	kindsOfKing     Kind = 96
	kindsOfPawns    Kind = 128
	kindsOfDraws    Kind = 160
)

// Neutral reports whether the kind is about neither side.
func (k Kind) Neutral() bool {
	switch k {
	case OppositeBishops, OpenFile, Repetition, FiftyMoves, DeadPosition:
		return true
	}
	return false
}

// String returns the kind in words, for logs and tests.
func (k Kind) String() string {
	if name := kindNames[k]; name != "" {
		return name
	}
	return "no kind"
}

// Kinds returns all kinds there are.
func Kinds() []Kind {
	var all []Kind
	for k, name := range kindNames {
		if name != "" {
			all = append(all, Kind(k))
		}
	}
	return all
}

var kindNames = [256]string{
	Material: "material", PawnsUp: "pawns up", PieceUp: "piece up", PieceForPawns: "piece for pawns",
	ExchangeUp: "exchange up", PiecesForRook: "two pieces for a rook", RookUp: "rook up", QueenUp: "queen up",
	QueenForRook: "queen for a rook", QueenForRooks: "queen against two rooks",
	QueenForRookAndPiece: "queen for rook and piece", QueenForPieces: "queen against three pieces",
	BishopPair: "bishop pair", OppositeBishops: "opposite bishops", BishopAgainstKnight: "bishop against knight",

	Loose: "loose", Hanging: "hanging", AbsolutePin: "absolute pin", RelativePin: "relative pin",
	NoSafeSquare: "no safe square", Trapped: "trapped", Trappable: "trappable",
	SoleDefender: "sole defender", Overloaded: "overloaded", BadBishop: "bad bishop",
	Mobility: "mobility", Squeezed: "squeezed",

	Fork: "fork on offer", Skewer: "skewer on offer", DiscoveredAttack: "discovered attack on offer",
	MateOffer: "mate on offer", MateThreat: "mate threat", Checkmated: "checkmated",

	CastlingAvailable: "castling available", CastlingPrevented: "castling prevented",
	CastlingInCheck: "castling in check", CastlingBlocked: "castling blocked", CastlingLost: "castling lost", Castled: "castled",
	KingInCentre: "king in the centre", PawnCover: "pawn cover",
	OpenLineToKing: "open line to the king", HalfOpenLineToKing: "half-open line to the king",

	WeakSquare: "weak square", Outpost: "outpost", OpenFile: "open file", HalfOpenFile: "half-open file",
	RooksOnOpenFile: "rooks on open file", RooksOnHalfOpenFile: "rooks on half-open file",
	Passed: "passed", ProtectedPassed: "protected passed", Isolated: "isolated", Doubled: "doubled",
	Backward: "backward", Majority: "majority",

	Repetition: "repetition", FiftyMoves: "fifty moves", Stalemated: "stalemated",
	DeadPosition: "dead position", CannotWin: "cannot win",
}
