package facts

// Castling and the king. The rights are those of FEN: king and rook have not moved
// (FIDE Laws 3.8.2.1). Side is the king's.
const (
	// CastlingAvailable: the side has the right, the squares between king and rook are
	// empty, and the king neither stands on, crosses nor arrives on an attacked square
	// (FIDE Laws 3.8.2). The side looked at as if it were on the move. Squares: king,
	// its square of arrival, rook.
	CastlingAvailable = iota + kindsOfKing
	// CastlingPrevented: the right is there, the squares between are empty and the king is
	// not in check, but an enemy man attacks the square it crosses or the one it
	// arrives on. Squares: king, the first of the two that is attacked, then
	// every man that attacks one of them, those of the first square before the others.
	// Amount is the number of squares attacked, 1 or 2.
	CastlingPrevented
	// CastlingInCheck: as CastlingPrevented, but the king stands in check. Squares: king,
	// then every man that attacks it, the square it would cross or that of arrival.
	// Amount is the number of these squares attacked, 1 to 3.
	CastlingInCheck
	// CastlingBlocked: the right is there, but men stand between king and rook.
	// Squares: king, those men.
	CastlingBlocked
	// CastlingLost: in this game the side had the right and has lost it, otherwise than
	// by castling. Move is the move that took it, Amount the ply it was played on, the
	// first being 1. Squares: the move's departure and arrival; Pieces of the second is
	// the man that moved: the king, the rook, or the enemy who captured the rook.
	CastlingLost
	// Castled: in this game the side has castled on this wing. Amount is the ply.
	// Squares: where the king and the rook arrived. Pieces are king and rook.
	Castled
	// KingInCentre: the king stands on the d- or e-file on its first or second rank,
	// and both sides have a queen. Squares: the king.
	KingInCentre
	// PawnCover: the king stands on the first or second rank, on the files a to c or f to
	// h; Amount is on how many of those three files a pawn of its own stands on
	// the second or third rank, and further than the king. Given while the other side has
	// a queen or two rooks. Squares: the king, those pawns. The Wing is the king's.
	PawnCover
	// OpenLineToKing: a file without pawns, that of a king on its first three ranks or
	// one next to it, while the other side has a queen or two rooks. Diagonals are
	// not counted. Squares: the king, then the other side's rooks and queens on the
	// file, or if there are none the end of the file on the other side.
	OpenLineToKing
	// HalfOpenLineToKing: as OpenLineToKing, for a file that has pawns of the other
	// side only.
	HalfOpenLineToKing
)
