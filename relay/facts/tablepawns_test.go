package facts

import "testing"

func TestKingTable(t *testing.T) {
	const castling = "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1"
	run(t, []row{
		{"all four", castling, CastlingAvailable, []string{
			"White king's side Ke1 g1 Rh1", "White queen's side Ke1 c1 Ra1",
			"Black king's side ke8 g8 rh8", "Black queen's side ke8 c8 ra8"}},
		{"b1 may be attacked", "1r2k3/8/8/8/8/8/8/R3K3 w Q - 0 1", CastlingAvailable, []string{"White queen's side Ke1 c1 Ra1"}},
		{"and the rook", "r3k3/8/8/8/8/8/8/R3K3 w Q - 0 1", CastlingAvailable, []string{"White queen's side Ke1 c1 Ra1"}},
		{"no right", "4k3/8/8/8/8/8/8/4K2R w - - 0 1", CastlingAvailable, nil},
		{"a bishop looks at g1", "4k3/8/8/2b5/8/8/8/4K2R w K - 0 1", CastlingPrevented, []string{"White king's side Ke1 g1 bc5 1"}},
		{"a bishop looks at f1", "4k3/8/b7/8/8/8/8/4K2R w K - 0 1", CastlingPrevented, []string{"White king's side Ke1 f1 ba6 1"}},
		{"two pieces, two squares", "5rk1/8/8/2b5/8/8/8/4K2R w K - 0 1", CastlingPrevented, []string{"White king's side Ke1 f1 rf8 bc5 2"}},
		{"a knight looks at d1, when White is not to move", "4k3/8/8/8/8/2n5/8/R3K3 b Q - 0 1", CastlingPrevented, []string{"White queen's side Ke1 d1 nc3 1"}},
		{"a pawn", "4k3/8/8/8/8/8/7p/4K2R w K - 0 1", CastlingPrevented, []string{"White king's side Ke1 g1 ph2 1"}},
		{"in check", "4k3/8/8/8/1b6/8/8/4K2R w K - 0 1", CastlingInCheck, []string{"White king's side Ke1 bb4 1"}},
		{"a bishop at home", "4k3/8/8/8/8/8/8/4KB1R w K - 0 1", CastlingBlocked, []string{"White king's side Ke1 Bf1"}},
		{"blocked and attacked is blocked", "4k3/8/b7/8/8/8/8/4KB1R w K - 0 1", CastlingPrevented, nil},
		{"queen's side, everything at home", "rnbqk3/8/8/8/8/8/8/4K3 w q - 0 1", CastlingBlocked, []string{"Black queen's side ke8 nb8 bc8 qd8"}},
		{"in the centre", "4k2q/8/8/8/8/8/3K4/Q7 b - - 0 1", KingInCentre, []string{"White Kd2", "Black ke8"}},
		{"without queens", "4k3/8/8/8/8/8/8/3QK3 w - - 0 1", KingInCentre, nil},
		{"too far out", "3q4/8/4k3/8/8/8/8/Q5K1 w - - 0 1", KingInCentre, nil},
		{"three pawns, one on the third rank", "3q3k/8/8/8/8/7P/5PP1/6K1 w - - 0 1", PawnCover, []string{"White king's side Kg1 Pf2 Pg2 Ph3 3"}},
		{"one has gone on to the fourth", "3q3k/8/8/8/6P1/8/5P1P/6K1 w - - 0 1", PawnCover, []string{"White king's side Kg1 Pf2 Ph2 2"}},
		{"doubled pawns are one file", "3q3k/8/8/8/8/6P1/6P1/6K1 w - - 0 1", PawnCover, []string{"White king's side Kg1 Pg2 Pg3 1"}},
		{"Black's, on the queen's side, bare", "1k6/8/8/8/8/8/8/3QK3 w - - 0 1", PawnCover, []string{"Black queen's side kb8"}},
		{"nothing to be covered from", "6k1/8/8/8/8/8/5PPP/6K1 w - - 0 1", PawnCover, nil},
		{"the g-file, with a rook on it", "3q2r1/5p1p/7k/8/8/8/5P1P/7K w - - 0 1", OpenLineToKing, []string{"White Kh1 rg8"}},
		{"half open, nothing on it yet", "3q2k1/6p1/8/8/8/8/5P1P/7K w - - 0 1", HalfOpenLineToKing, []string{"White Kh1 kg8"}},
		{"one rook is not enough", "6rk/8/8/8/8/8/5P1P/7K w - - 0 1", OpenLineToKing, nil},
	})
}

func TestPawnsTable(t *testing.T) {
	run(t, []row{
		{"nothing stops it", "4k3/8/8/3P4/8/8/8/4K3 w - - 0 1", Passed, []string{"White Pd5 3"}},
		{"an enemy beside the way", "4k3/4p3/8/3P4/8/8/8/4K3 w - - 0 1", Passed, nil},
		{"one beside it, level, is past", "4k3/8/8/3Pp3/8/8/8/4K3 w - - 0 1", Passed, []string{"White Pd5 3", "Black pe5 4"}},
		{"only the foremost", "4k3/8/8/3P4/3P4/8/8/4K3 w - - 0 1", Passed, []string{"White Pd5 3"}},
		{"protected", "4k3/8/8/3P4/4P3/8/8/4K3 w - - 0 1", ProtectedPassed, []string{"White Pd5 Pe4 3"}},
		{"Black's, with two defenders", "4k3/8/2p1p3/3p4/8/8/8/4K3 w - - 0 1", ProtectedPassed, []string{"Black pd5 pc6 pe6 4"}},
		{"side by side is not protected", "4k3/8/8/3PP3/8/8/8/4K3 w - - 0 1", ProtectedPassed, nil},
		{"isolated", "4k3/8/8/8/8/8/P1P5/4K3 w - - 0 1", Isolated, []string{"White Pa2", "White Pc2"}},
		{"a neighbour far away is one", "4k3/8/1P6/8/8/8/P7/4K3 w - - 0 1", Isolated, nil},
		{"doubled", "4k3/2p5/2p5/8/8/8/8/4K3 w - - 0 1", Doubled, []string{"Black pc7 pc6"}},
		{"three", "4k3/8/8/2P5/8/2P5/2P5/4K3 w - - 0 1", Doubled, []string{"White Pc2 Pc3 Pc5"}},
		{"left behind by its only neighbour", "4k3/8/3p4/4p3/4P3/2P5/8/4K3 w - - 0 1", Backward, []string{"Black pd6 d5"}},
		{"nothing watches the square ahead", "4k3/8/3p4/2p1p3/8/2N5/8/4K3 w - - 0 1", Backward, nil},
		{"behind its own pawn it is not", "4k3/8/8/4p3/3PP3/3P4/8/4K3 w - - 0 1", Backward, nil},
		{"two watch it", "4k3/8/3p4/2p1p3/2P1P3/8/8/4K3 w - - 0 1", Backward, []string{"Black pd6 d5"}},
		{"a neighbour level with it can help", "4k3/8/3pp3/8/2P1P3/8/8/4K3 w - - 0 1", Backward, nil},
		{"an isolated pawn is not backward", "4k3/8/3p4/8/2P1P3/8/8/4K3 w - - 0 1", Backward, nil},
		{"three against two", "4k3/5pp1/8/8/8/8/5PPP/4K3 w - - 0 1", Majority, []string{"White king's side Pf2 Pg2 Ph2 1"}},
		{"one each", "4k3/ppp2pp1/8/8/8/8/PP3PPP/4K3 w - - 0 1", Majority, []string{
			"White king's side Pf2 Pg2 Ph2 1", "Black queen's side pa7 pb7 pc7 1"}},
	})
}

func TestFilesTable(t *testing.T) {
	run(t, []row{
		{"two open files", "4k3/1ppppp2/8/8/8/8/1PPPPP2/R3K3 w - - 0 1", OpenFile, []string{"Ra1 a8", "g1 g8", "h1 h8"}},
		{"no rooks", "4k3/1ppppp2/8/8/8/8/1PPPPP2/Q3K3 w - - 0 1", OpenFile, nil},
		{"rooks behind each other", "4k3/1ppppp2/8/8/8/R7/RPPPPP2/4K3 w - - 0 1", RooksOnOpenFile, []string{"White Ra2 Ra3"}},
		{"both sides", "r3k3/1ppppp2/8/8/8/8/1PPPPP2/R3K3 w - - 0 1", RooksOnOpenFile, []string{"White Ra1", "Black ra8"}},
		{"half open for White", "4k3/p7/8/8/8/8/8/1R2K3 w - - 0 1", HalfOpenFile, []string{"White a1 pa7"}},
		{"without a rook it is not told", "4k3/p7/8/8/8/8/8/1Q2K3 w - - 0 1", HalfOpenFile, nil},
		{"a rook on it", "4k3/p7/p7/8/8/8/8/R3K3 w - - 0 1", RooksOnHalfOpenFile, []string{"White Ra1 pa6"}},
		{"the rook has got behind", "R7/p6k/8/8/8/8/8/4K3 w - - 0 1", RooksOnHalfOpenFile, []string{"White Ra8 pa7"}},
		{"a hole before two pawns that have gone on", "4k3/8/4p3/3p4/4P3/2N5/8/4K3 w - - 0 1", WeakSquare, nil},
		{"d5 can no longer be defended", "4k3/8/3p4/2p1p3/2P1P3/2N5/8/4K3 w - - 0 1", WeakSquare, []string{
			"Black b5 Pc4", "Black d5 Pc4 Pe4", "Black f5 Pe4"}},
		{"a pawn at home could still come", "4k3/2p3p1/3p4/4p3/4P3/2N5/8/4K3 w - - 0 1", WeakSquare, nil},
		{"a bishop of the other colour cannot go there", "4k3/8/3p4/2p1p3/2P1P3/8/8/2B1K3 w - - 0 1", WeakSquare, nil},
		{"the knight is there", "4k3/8/3p4/2pNp3/2P1P3/8/8/4K3 w - - 0 1", Outpost, []string{"White Nd5 Pc4 Pe4"}},
		{"a pawn can drive it away", "4k3/4p3/3p4/2pNp3/2P1P3/8/8/4K3 w - - 0 1", Outpost, nil},
		{"no pawn defends it", "4k3/8/3p4/2pNp3/8/8/8/4K3 w - - 0 1", Outpost, nil},
		{"Black's bishop", "4k3/8/8/4p3/3b4/8/8/4K3 w - - 0 1", Outpost, []string{"Black bd4 pe5"}},
		{"on the edge it is none", "4k3/8/8/1p6/n7/8/8/4K3 w - - 0 1", Outpost, nil},
	})
}
