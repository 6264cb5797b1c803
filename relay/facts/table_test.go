package facts

import (
	"slices"
	"testing"
)

// row is one position and all its facts of one kind. All positions of the tables are
// built for them unless a source is named beside one.
type row struct {
	name, fen string
	kind      Kind
	want      []string // as Fact.String has it, without the kind
}

func run(t *testing.T, rows []row) {
	t.Helper()
	for _, r := range rows {
		p := position(t, r.fen)
		if got := lines(Of(&p), r.kind); !slices.Equal(got, r.want) {
			t.Errorf("%s: %s: %q, want %q\n%s", r.name, r.kind, got, r.want, board(&p))
		}
	}
}

func TestMaterialTable(t *testing.T) {
	run(t, []row{
		{"equal", "4k3/p7/8/8/8/8/P7/4K3 w - - 0 1", Material, nil},
		{"a rook more for White", "4k3/8/8/8/8/8/8/R3K3 b - - 0 1", Material, []string{"White 500"}},
		{"two pawns more for Black", "4k3/ppp5/8/8/8/8/P7/4K3 w - - 0 1", Material, []string{"Black 200"}},
		{"pawns", "4k3/ppp5/8/8/8/8/P7/4K3 w - - 0 1", PawnsUp, []string{"Black 2"}},
		{"pawns are not counted so among other differences", "4k3/ppp5/8/8/8/8/PN6/4K3 w - - 0 1", PawnsUp, nil},
		{"a clear piece", "4k3/pp6/8/8/8/8/PPN5/4K3 w - - 0 1", PieceUp, []string{"White Nc2"}},
		{"a piece and a pawn", "4k1n1/pp6/8/8/8/8/P7/4K3 w - - 0 1", PieceUp, []string{"Black ng8 1"}},
		{"three pawns for it", "4k3/ppppp3/8/8/8/8/PPN5/4K3 w - - 0 1", PieceForPawns, []string{"White Nc2 3"}},
		{"no pawn for it", "4k3/pp6/8/8/8/8/PPN5/4K3 w - - 0 1", PieceForPawns, nil},
		{"the exchange", "4k1n1/pp6/8/8/8/8/PP6/R3K3 w - - 0 1", ExchangeUp, []string{"White Ra1 ng8"}},
		{"the exchange for two pawns", "r3k3/p7/8/8/8/8/PPP5/4KB2 w - - 0 1", ExchangeUp, []string{"Black ra8 Bf1 -2"}},
		{"a rook against a queen is not the exchange", "4k1q1/pp6/8/8/8/8/PP6/R3K3 w - - 0 1", ExchangeUp, nil},
		{"two pieces for a rook and a pawn", "r3k3/pp6/8/8/8/8/P7/4KBN1 w - - 0 1", PiecesForRook, []string{"White Bf1 Ng1 ra8 -1"}},
		{"a rook", "r3k3/p7/8/8/8/8/P7/4K3 w - - 0 1", RookUp, []string{"Black ra8"}},
		{"a queen", "3qk3/p7/8/8/8/8/P7/4K3 w - - 0 1", QueenUp, []string{"Black qd8"}},
		{"queen for a rook", "3qk3/p7/8/8/8/8/P7/R3K3 w - - 0 1", QueenForRook, []string{"Black qd8 Ra1"}},
		{"queen against two rooks", "3qk3/p7/8/8/8/8/PP6/R3K2R w - - 0 1", QueenForRooks, []string{"Black qd8 Ra1 Rh1 -1"}},
		{"queen for rook and bishop", "r3kb2/p7/8/8/8/8/P7/3QK3 w - - 0 1", QueenForRookAndPiece, []string{"White Qd1 ra8 bf8"}},
		{"queen against three pieces", "2b1kbn1/p7/8/8/8/8/P7/3QK3 w - - 0 1", QueenForPieces, []string{"White Qd1 bc8 bf8 ng8"}},
		{"the pair", "4kbn1/8/8/8/8/8/8/2B1KB2 w - - 0 1", BishopPair, []string{"White Bc1 Bf1"}},
		{"both have it", "2b1kb2/8/8/8/8/8/8/2B1KB2 w - - 0 1", BishopPair, nil},
		{"two on one colour are none", "4k1n1/8/8/8/8/8/4B3/4KB2 w - - 0 1", BishopPair, nil},
		{"two on dark squares", "4k1n1/8/8/8/8/8/3B4/4K1B1 w - - 0 1", BishopPair, nil},
		{"opposite and alone", "4kb2/p7/8/8/8/8/P7/4KB2 w - - 0 1", OppositeBishops, []string{"Bf1 bf8 1"}},
		{"opposite with rooks", "r3kb2/p7/8/8/8/8/P7/R3KB2 w - - 0 1", OppositeBishops, []string{"Bf1 bf8"}},
		{"the same colour", "2b1k3/p7/8/8/8/8/P7/4KB2 w - - 0 1", OppositeBishops, nil},
		{"bishop against knight", "4k1n1/8/8/8/8/8/P7/4KB2 w - - 0 1", BishopAgainstKnight, []string{"White Bf1 ng8"}},
		{"a knight beside the bishop", "4k1n1/8/8/8/8/8/P7/4KBN1 w - - 0 1", BishopAgainstKnight, nil},
	})
}

func TestPiecesTable(t *testing.T) {
	run(t, []row{
		{"a knight alone, a rook that the king defends", "4k3/8/8/8/4N3/8/8/3RK3 w - - 0 1", Loose, []string{"White Ne4"}},
		{"pawns are not asked", "4k3/8/8/8/4P3/8/8/4K3 w - - 0 1", Loose, nil},
		{"behind another man is no defender", "4k3/8/8/8/4N3/4P3/8/4RK2 w - - 0 1", Loose, []string{"White Ne4"}},
		{"a pinned defender is one", "4r3/7k/8/3B4/8/4N3/8/4K3 w - - 0 1", Loose, []string{"White Ne3", "Black re8"}},
		{"a knight attacked by a pawn, though defended", "4k3/8/8/4p3/3N4/2P5/8/4K3 w - - 0 1", Hanging, []string{"White Nd4 pe5 200"}},
		{"a defended pawn does not hang", "4k3/8/4p3/3p4/8/8/8/3RK3 w - - 0 1", Hanging, nil},
		{"its defender is pinned", "4k3/8/4n3/8/5p2/8/6N1/4R1K1 w - - 0 1", Hanging, []string{"Black ne6 Re1 300", "Black pf4 Ng2 100"}},
		{"its attacker is pinned", "4k3/8/8/4n3/2P5/8/8/4R1K1 b - - 0 1", Hanging, []string{"Black ne5 Re1 300"}},
		{"both sides' men", "4k3/8/8/2n5/8/8/8/2R1K2b w - - 0 1", Hanging, []string{"Black nc5 Rc1 300"}},
		{"a knight before its king", "4k3/4n3/8/8/8/8/8/4RK2 w - - 0 1", AbsolutePin, []string{"Black ne7 Re1 ke8"}},
		{"a pawn", "4k3/8/8/8/1b6/8/3P4/4K3 w - - 0 1", AbsolutePin, []string{"White Pd2 bb4 Ke1"}},
		{"two men between are not pinned", "4k3/4n3/4p3/8/8/8/8/4RK2 w - - 0 1", AbsolutePin, nil},
		{"knight before the queen", "3qk3/8/5n2/6B1/8/8/8/4K3 w - - 0 1", RelativePin, []string{"Black nf6 Bg5 qd8 600"}},
		{"the queen behind is defended, but worth more", "3qk3/8/5n2/6B1/8/8/8/4K3 b - - 0 1", RelativePin, []string{"Black nf6 Bg5 qd8 600"}},
		{"a defended knight behind is not lost", "3nk3/8/5n2/6B1/8/8/8/4K3 w - - 0 1", RelativePin, nil},
		{"a loose knight behind is", "3n3k/8/5n2/6B1/8/8/8/4K3 w - - 0 1", RelativePin, []string{"Black nf6 Bg5 nd8 300"}},
		{"a pawn on the file goes on along it", "3qk3/3p4/8/8/8/8/8/3RK3 w - - 0 1", RelativePin, nil},
		{"a pawn on the diagonal does not", "4k2r/6p1/8/8/8/2B5/8/4K3 w - - 0 1", RelativePin, []string{"Black pg7 Bc3 rh8 500"}},
		{"the queen in front is no pin", "4k3/8/1n6/2q5/8/4B3/8/6K1 w - - 0 1", RelativePin, nil},
		{"the king alone defends it", "4k3/5p2/8/8/2B5/8/8/4K3 w - - 0 1", SoleDefender, []string{"Black ke8 pf7 100"}},
		{"the knight alone defends the knight", "6k1/8/2n5/4n3/8/8/4R3/4K3 w - - 0 1", SoleDefender, []string{"Black nc6 ne5 300"}},
		{"two defenders", "6k1/8/2n2p2/4n3/8/8/4R3/4K3 w - - 0 1", SoleDefender, nil},
		{"not attacked", "6k1/8/2n5/4n3/8/8/8/4K3 w - - 0 1", SoleDefender, nil},
		{"the knight has two others to look after", "6k1/8/2n5/4n3/1n6/8/8/1R2R1K1 w - - 0 1", Overloaded, []string{"Black nc6 ne5 nb4 100"}},
		{"the queen still defends the other from there", "3q2k1/8/8/n2n4/8/8/3R4/R5K1 w - - 0 1", Overloaded, nil},
		{"pawns fixed on its colour", "2b1k3/pp3ppp/4p3/3pP3/3P4/8/8/4K3 w - - 0 1", BadBishop, []string{"Black bc8 pe6 pd5 5"}},
		{"it stands before them", "4k3/pp3ppp/4p3/3pP3/3P2b1/8/8/4K3 w - - 0 1", BadBishop, nil},
		{"of the other colour", "4kb2/pp3ppp/4p3/3pP3/3P4/8/8/4K3 w - - 0 1", BadBishop, nil},
	})
}

// The position of the Noah's Ark trap in the Ruy Lopez, its moves from memory: White's
// bishop is lost for two pawns.
const noahsArk = "r2qkbnr/3b1ppp/p2p4/1p1Q4/2p1P3/1B6/PPP2PPP/RNB1K2R w KQkq - 0 12"

func TestSafetyTable(t *testing.T) {
	run(t, []row{
		{"Noah's Ark", noahsArk, Trapped, []string{"White Bb3 pc4 100"}},
		{"Noah's Ark", noahsArk, NoSafeSquare, []string{"White Bb3"}},
		{"the attacker can be taken", "4k3/8/8/1p6/2p5/1B1P4/P7/4K3 w - - 0 1", Trapped, nil},
		{"it has a square", "4k3/8/8/1p6/2p5/1B6/8/4K3 w - - 0 1", Trapped, nil},
		{"a bishop that took on a7", "5rk1/B1p5/1p6/8/8/8/8/6K1 b - - 0 1", NoSafeSquare, []string{"White Ba7"}},
		{"the rook comes to a8", "5rk1/B1p5/1p6/8/8/8/8/6K1 b - - 0 1", Trappable, []string{"White f8a8 Ba7 rf8 a8 200"}},
		{"a man on its first rank may have none", "4k3/8/8/8/8/8/PP6/RK6 w - - 0 1", NoSafeSquare, nil},
		{"a knight in the corner", "4k3/8/8/8/8/8/8/N3K3 w - - 0 1", Mobility, []string{"White Na1 2"}},
		{"a pawn watches one of the squares", "4k3/8/8/8/p7/8/8/N3K3 w - - 0 1", Mobility, []string{"White Na1 1"}},
		{"in check it is not asked", "4k3/8/8/8/4r3/8/8/N3K3 w - - 0 1", Mobility, nil},
		{"a pinned bishop keeps its line", "4k3/8/8/8/1b6/8/3B4/4K3 w - - 0 1", Mobility, []string{"White Bd2 1", "Black bb4 6"}},
	})
}

func TestTacticsTable(t *testing.T) {
	run(t, []row{
		{"king and rook", "r3k3/8/8/3N4/8/8/8/4K3 w - - 0 1", Fork, []string{"White d5c7 Nd5 c7 ra8 ke8 500"}},
		{"the square is watched", "r2qk3/8/8/3N4/8/8/8/4K3 w - - 0 1", Fork, nil},
		{"a pawn forks two knights", "4k3/8/2n1n3/8/3P4/8/8/4K3 w - - 0 1", Fork, []string{"White d4d5 Pd4 d5 nc6 ne6 200"}},
		{"it is not White's move", "r3k3/8/8/3N4/8/8/8/4K3 b - - 0 1", Fork, nil},
		{"one reply saves both: the rook checks", "r6k/8/8/3N4/4r3/8/8/3K4 w - - 0 1", Fork, nil},
		{"rook behind king", "7r/8/8/4k3/8/8/8/2B3K1 w - - 0 1", Skewer, []string{"White c1b2 Bc1 b2 ke5 rh8 500"}},
		{"a defended knight behind it: a bishop for a knight", "8/6p1/5n2/4k3/8/8/8/2B3K1 w - - 0 1", Skewer, nil},
		{"discovered check, and the queen attacked", "4k3/1q6/8/8/4N3/8/8/4R1K1 w - - 0 1", DiscoveredAttack, []string{
			"White e4c5 Ne4 c5 Re1 ke8 qb7 400", "White e4d6 Ne4 d6 Re1 ke8 qb7 900"}},
		{"a check that wins nothing", "4k3/8/8/8/4N3/8/8/4R1K1 w - - 0 1", DiscoveredAttack, nil},
		{"a check, and the rook behind looks at the queen", "4k3/4q3/8/8/4N3/8/8/4R1K1 w - - 0 1", DiscoveredAttack, []string{
			"White e4d6 Ne4 d6 Re1 qe7 ke8 400", "White e4f6 Ne4 f6 Re1 qe7 ke8 400"}},
		{"mate on the last rank", "6k1/5ppp/8/8/8/8/8/R5K1 w - - 0 1", MateOffer, []string{"White a1a8 Ra1 a8 kg8"}},
		{"the threat of it", "6k1/5ppp/8/8/8/8/8/R5K1 b - - 0 1", MateThreat, []string{"White a1a8 Ra1 a8 kg8"}},
		{"a hole to go to", "6k1/5pp1/7p/8/8/8/8/R5K1 w - - 0 1", MateOffer, nil},
		{"mated", "R5k1/5ppp/8/8/8/8/8/6K1 b - - 0 1", Checkmated, []string{"Black kg8 Ra8"}},
		{"stalemated", "k7/2Q5/8/8/8/8/8/6K1 b - - 0 1", Stalemated, []string{"Black ka8"}},
		{"a bare king", "k7/8/8/8/8/8/8/1R4K1 w - - 0 1", CannotWin, []string{"Black ka8"}},
		{"with a pawn it may win", "k7/p7/8/8/8/8/8/1R4K1 w - - 0 1", CannotWin, nil},
	})
}
