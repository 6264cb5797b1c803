package facts

// What can be played. Side is the side that plays it, and Move the move. A fork, skewer or
// discovered attack is on offer for the side to move only, and wins whatever the
// other side replies: after every legal reply, what both moves captured and the best
// exchange on the squares of the men attacked, or on the reply's square of arrival,
// make at least Amount, which is more than 0 and than the move's own outcome. Other
// threats are not looked at. A move that mates is none of them. A man that already hangs
// is no target.
const (
	// Fork: a move after which the man moved attacks at least two targets: the king,
	// pieces worth more than the man, and undefended pieces. Squares: departure,
	// arrival, targets.
	Fork = iota + kindsOfTactics
	// Skewer: a move of a bishop, rook or queen that newly attacks a front target, the
	// king or a piece worth more than it or undefended, with a second piece of the
	// other side behind it on the line that is worth no more than the front one.
	// Squares: departure, arrival, front target, the one behind.
	Skewer
	// DiscoveredAttack: a move of one man that opens a line on which a bishop, rook or
	// queen of its side attacks a target: the king, a piece worth more than the
	// attacker, an undefended piece. Squares: departure, arrival, the attacker behind,
	// its target, then targets that the man moved attacks as in Fork.
	DiscoveredAttack
	// MateOffer: the side to move can mate with Move (FIDE Laws 1.4.1). Squares:
	// departure, arrival, the king.
	MateOffer
	// MateThreat: the side that is not on the move would mate with Move if it were.
	// Not given while the other king stands in check. Squares as for MateOffer.
	MateThreat
	// Checkmated: the side to move is checkmated. Squares: its king, the checking men.
	Checkmated
)
