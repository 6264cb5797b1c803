package remark

// found is a row of findingTable.
type found struct {
	rule            Rule
	fen, move, want string
	miss            string
}

// findingTable has for each rule a position, the move that made it speak, and what it says; and a
// position and move of a near miss, "FEN|move".
var findingTable = []found{
	{MateHere, "7K/8/5k2/8/6q1/8/8/8 w - - 18 87", "Kh7", "matehere-black-g4g7-qg4-g7-Kh7", "7K/8/8/5k2/6q1/8/8/8 w - - 18 87|Kh7"},
	{MateForced, "8/8/8/8/8/1p6/K1k5/8 w - - 0 63", "Ka1", "mateforced-black-b3b2-pb3-b2-Ka1", "8/8/8/8/8/8/K1k5/8 w - - 0 63|Ka1"},
	{MateThreatened, "8/8/8/8/8/3k4/4q3/K7 b - - 7 67", "Kc3", "matethreatened-black-e2b2-qe2-b2-Ka1", "8/8/8/8/8/3k4/4q3/K7 b - - 7 67|Kd4"},
	{ForkOffered, "5b2/8/8/4N3/8/3K1k2/8/8 b - - 2 56", "Kf4", "forkoffered-white-e5g6-Ne5-g6-kf4-bf8", "5b2/7p/8/4N3/8/3K1k2/8/8 b - - 2 56|Kf4"},
	{SkewerOffered, "8/8/8/8/8/7K/6r1/2R3k1 b - - 20 103", "Kf2", "skeweroffered-white-c1c2-Rc1-c2-kf2-rg2", "8/8/8/8/8/1b5K/6r1/2R3k1 b - - 20 103|Kf2"},
	{DiscoveryOffered, "8/6Q1/2K5/8/8/5n2/6q1/6k1 w - - 0 60", "Qf7", "discoveryoffered-black-f3e5-nf3-e5-qg2-Kc6-Qf7", "8/6Q1/3K4/8/8/5n2/6q1/6k1 w - - 0 60|Qe7"},
	{DoubleDuty, "8/p5k1/1p1n2p1/2p1R1Nr/6KP/8/P7/8 b - - 0 39", "Nf5", "doubleduty-black-e5f5-pg6-nf5-rh5", "8/p5k1/1p1n2p1/2p1R1N1/6KP/8/P6r/8 b - - 0 39|Nf5"},
	{GuardRemovable, "8/8/8/8/4R1KP/3k4/5PBP/6r1 w - - 1 57", "Kg3", "guardremovable-white-g1g2-Bg2-Re4-rg1", "8/8/8/8/4R1KP/8/3k1PBP/6r1 w - - 1 57|Kg3"},
	{PieceHangs, "8/6k1/6r1/8/8/7R/8/7K w - - 3 75", "Rg3", "piecehangs-white-g6g3-Rg3-rg6", "8/6k1/6r1/8/7B/7R/8/7K w - - 3 75|Rg3"},
	{PieceTrapped, "2k5/p1p4b/5K1P/2p2p2/8/8/8/8 w - - 0 39", "Kg7", "piecetrapped-black-bh7-Kg7", "2k5/p1p4b/5K1P/2p5/8/8/8/8 w - - 0 39|Kg7"},
	{TrapOffered, "5k2/R3N2p/6p1/p1r2p2/8/5K1P/3b1P2/8 w - - 0 37", "Ke2", "trapoffered-white-d2g5-Ne7-bd2-g5", "5k2/R3N3/6p1/p1r2p2/8/5K1P/3b1P2/8 w - - 0 37|Ke2"},
	{NoSquareLeft, "5k2/R3N2p/5pp1/p1r5/8/5K1P/3b1P2/8 b - - 9 36", "f5", "nosquareleft-white-d2g5-Ne7-bd2-g5", "5k2/R3N3/5pp1/p1r5/8/5K1P/3b1P2/8 b - - 9 36|f5"},
	{NoSafeSquare, "2r1k3/4b1p1/5n2/6P1/p2B4/5R2/5P2/5K2 b - - 0 42", "Nh5", "nosafesquare-black-nh5", "2r1k3/4b1p1/5n2/8/p2B4/5R2/5P2/5K2 b - - 0 42|Nh5"},
	{PinAttacked, "8/8/8/6k1/4K1n1/4N2R/5P2/8 w - - 1 48", "Rg3", "pinattacked-black-ng4-Rg3-kg5-Ne3", "8/8/8/6k1/4K1n1/7R/4NP2/8 w - - 1 48|Rg3"},
	{PinLasting, "8/6k1/7r/8/8/5R2/8/7K w - - 1 74", "Rh3", "pinlasting-white-Rh3-rh6-Kh1", "8/6k1/7r/8/8/5R2/8/6K1 w - - 1 74|Rh3"},

	{CastlingPrevented, "r2qk2r/ppp2ppp/3pbn2/8/8/2N1BN2/PPP2PPP/R2QK2R b KQ - 0 12", "Bc4", "castlingprevented-white-k-Ke1-f1-bc4", "r3k2r/ppp2ppp/q2pbn2/8/8/2N1BN2/PPP2PPP/R2QK2R b KQ - 0 12|Bc4"},
	{CastlingGivenUp, "4k2r/2q2Np1/4Pp2/p4p2/1b1r4/2p3P1/Q5R1/2R3K1 b k - 1 36", "Rh5", "castlinggivenup-black-ke8", "4k2r/2q2Np1/4Pp2/p4p2/1b1r4/2p3P1/Q5R1/2R3K1 b - - 1 36|Rh5"},
	{CentreOpen, "8/1p3p1k/5Q2/7p/3B4/q2P4/P4P2/3K4 b - - 14 36", "Qxd3+", "centreopen-white-Kd1-qd3", "8/1p3p1k/5Q2/3p3p/3B4/q2P4/P4P2/3K4 b - - 14 36|Qxd3+"},
	{FileToKing, "8/8/3k4/8/3R4/4Q3/6K1/8 b - - 8 85", "Kc7", "filetoking-black-kc7-Rd4", "8/8/3k4/8/3B4/4Q3/6K1/8 b - - 8 85|Kc7"},
	{KingLate, "rnb4q/pp2ppk1/6p1/2P5/4P3/2P5/P2Q1PP1/RN2KBN1 b Q - 0 14", "Nc6", "kinglate-white-Ke1", "rnb4q/pp2ppk1/6p1/2P5/4P3/2P5/P2Q1PP1/RN2KBN1 b Q - 0 13|Nc6"},
	{OppositeWings, "5r2/pp2ppk1/3q4/3p2P1/P2Pn2P/2P5/1P2Q3/R3K2R w KQ - 1 23", "O-O-O", "oppositewings-white", "5r2/pp2ppk1/3q4/3p2P1/P2Pn2P/2P5/1P2Q3/R3K2R w KQ - 1 23|O-O"},
	{KingUnderFire, "8/8/8/3kb3/8/8/2K5/1q3q2 w - - 0 71", "Kd2", "kingunderfire-white-Kd2", "8/8/8/3k4/8/8/2K5/1q3q2 w - - 0 71|Kd2"},
	{BackRank, "7k/p5pp/1npbBr2/1p3R2/3P3r/1P6/PBP5/2K2R2 w - - 0 27", "Rxf6", "backrank-black-kh8-Rf6", "7k/p5p1/1npbBr2/1p3R2/3P3r/1P6/PBP5/2K2R2 w - - 0 27|Rxf6"},
	{FianchettoGone, "1k1r3r/p1p5/1pp2q2/7p/8/3B4/PPPQ2b1/1K2R3 w - - 0 25", "Qxg2", "fianchettogone-black-kb8-pb6", "1k1r3r/p1p5/1pp2q2/7p/3B4/8/PPPQ2b1/1K2R3 w - - 0 25|Qxg2"},
	{CoverGone, "5rk1/5pp1/7q/8/8/2B5/1Q3PPP/4R1K1 w - - 0 30", "Bxg7", "covergone-black-k-kg8-pf7", "5rk1/5ppp/7q/8/8/2B5/1Q3PPP/4R1K1 w - - 0 30|Bxg7"},

	{KnightOutpost, "3r4/p1r1k3/R1b4p/2N4P/P2p4/3KP3/8/6R1 w - - 0 43", "exd4", "knightoutpost-white-Nc5-Pd4", "3r4/p1r1k3/R1b4p/2N4P/P2p4/3KP3/8/8 w - - 0 43|exd4"},
	{FileTaken, "8/R7/3p1k1P/1pp5/8/1P4P1/P3rPK1/8 b - - 0 37", "Re8", "filetaken-black-re8", "8/R7/3p1k1P/1p6/8/1P4P1/P3rPK1/8 b - - 0 37|Re8"},
	{FileDoubled, "5rk1/4R1p1/7r/3K4/3P4/8/8/8 b - - 3 52", "Rhf6", "filedoubled-black-rf8-rf6", "5rk1/4R1p1/7r/3K4/3P1P2/8/8/8 b - - 3 52|Rhf6"},
	{SeventhRank, "8/8/1p6/8/3k4/8/3K2r1/8 w - - 20 65", "Ke1", "seventhrank-black-rg2", "8/8/1p6/8/3k2r1/1K6/8/8 w - - 0 65|Ka3"},
	{SeventhRankDoubled, "4rk2/7R/1p4R1/8/8/1r6/6P1/6K1 w - - 0 47", "Rgg7", "seventhrankdoubled-white-Rg7-Rh7", "4r3/7R/1p6/6R1/3k4/1r6/6P1/6K1 w - - 0 47|Rgg7"},
	{Hole, "r2q1rk1/pp1bbppp/3pp3/8/4P3/2N2N2/PPP1BPPP/R2Q1RK1 b - - 0 12", "e5", "hole-black-d5-Pe4-Nc3", "r2q1rk1/pp1bbppp/3ppn2/8/4P3/2N2N2/PPP1BPPP/R2Q1RK1 b - - 0 12|e5"},
	{AtHome, "rnbr4/pp3kp1/2p4p/4P3/8/4KN2/PPP3PP/RN5R w - - 0 12", "Nc3", "athome-black-nb8-bc8", "rnbr4/pp3kp1/2p4p/4P3/8/4KN2/PPP3PP/RN5R w - - 0 12|Ng1"},
	{LoosePieces, "4B1k1/2p2R1p/p3p3/2bq4/8/5bPK/7P/8 w - - 0 35", "Rf6", "loosepieces-white-Rf6-Be8", "4B1k1/2p2R1p/p3p3/2br4/8/5bPK/7P/8 w - - 0 35|Rf6"},
	{BadBishop, "2b2k1K/7P/2P5/1N1p1p2/4pP2/4P3/8/8 b - - 0 60", "Be6", "badbishop-black-be6-pf5-pe4", "2b2k1K/7P/2P5/1N1p1p2/4pP2/8/8/8 b - - 0 60|Be6"},
	{ShortOfMoves, "r1b1Bq1r/pp6/1k1R4/4Q3/8/8/PPP2PP1/2K1R3 b - - 4 25", "Kc7", "shortofmoves-black", "r1b1Bq1r/pp6/1k1R4/8/8/7Q/PPP2PP1/2K1R3 b - - 4 25|Ka5"},

	{PasserFar, "8/1K6/8/P7/2k5/8/8/8 w - - 3 74", "a6", "passerfar-white-Pa6", "8/1K6/8/8/P1k5/8/8/8 w - - 3 74|a5"},
	{PassersConnected, "8/6K1/1p6/2k5/p7/8/8/8 b - - 0 52", "b5", "passersconnected-black-pa4-pb5", "8/6K1/1p6/2k5/p7/8/1P6/8 b - - 0 52|b5"},
	{PasserProtected, "8/6K1/1p6/2k5/p7/8/8/8 b - - 0 52", "b5", "passerprotected-black-pa4-pb5", "8/6K1/1p6/2k5/p7/8/8/8 b - - 0 52|a3"},
	{PasserNew, "6K1/8/8/4p3/8/8/4k3/8 b - - 0 57", "e4", "passernew-black-pe4", "6K1/8/8/4p3/8/8/3Pk3/8 b - - 0 57|e4"},
	{PassersFar, "b7/P7/8/8/3KP3/5p2/4k3/8 w - - 1 56", "e5", "passersfar-white-Pa7-Pe5", "b7/P7/8/8/3K1P2/5p2/4k3/8 w - - 1 56|Kc5"},
	{PasserBlocked, "1Q6/1P6/2n5/6K1/8/3B4/3k4/8 b - - 2 64", "Nxb8", "passerblocked-white-Pb7-nb8", "1Q6/1P6/1k6/6K1/8/3B4/8/8 b - - 2 64|Kc6"},
	{OutsideSquare, "8/1K6/8/P2k4/8/8/8/8 b - - 2 73", "Kc4", "outsidesquare-white-Pa5-kc4", "8/1K6/8/P2k4/8/8/8/8 b - - 2 73|Kc5"},
	{PasserBacked, "4k3/8/3P4/2K5/2B2R2/8/8/3r4 w - - 5 61", "Rd4", "passerbacked-white-Pd6-Rd4", "4k3/8/3P4/2K5/2B2R2/8/8/3r4 w - - 5 61|Rf6"},
	{IsolatedQueensPawn, "2rq3r/p2kb1Np/4p3/8/2np4/2P5/P3B2P/2B1KR2 w - - 1 28", "cxd4", "isolatedqueen'spawn-white-Pd4", "2rq3r/p2kb1Np/4p3/8/2np4/2P1P3/P3B2P/2B1KR2 w - - 1 28|cxd4"},
	{DoubledIsolated, "8/8/8/1b3kpp/6P1/5K2/8/8 b - - 0 59", "hxg4+", "doubledisolated-black-pg5-pg4", "8/5p2/8/1b3kpp/6P1/5K2/8/8 b - - 0 59|hxg4+"},
	{BackwardAttacked, "2kr1b2/pp6/2p1p3/3P4/3Pb2p/7B/PP6/2KR2N1 w - - 0 22", "dxe6", "backwardattacked-white-Pd4-rd8", "2kr1b2/pp6/2p1p3/3P4/3Pb2p/7B/1P6/2KR2N1 w - - 0 22|dxe6"},
	{CentreClosed, "5nk1/3q2p1/4p3/3p4/3PP3/1P6/1K6/8 w - - 1 58", "e5", "centreclosed-white-Pd4-Pe5-pd5-pe6", "5nk1/3q2p1/4p3/3p4/3PP3/1P6/1K6/8 w - - 1 58|exd5"},
	{IsolatedAttacked, "6r1/1b1kp1B1/8/p2qp2p/1p6/3P4/1PP2QP1/4R1K1 w - - 2 28", "Rxe5", "isolatedattacked-black-pe7-Re5", "6r1/1b1kp1B1/8/p2qp2p/1p6/3P4/2P2QP1/4R1K1 w - - 2 28|Rxe5"},
	{WingMajority, "8/8/8/3pNk2/3Bb1p1/4P1K1/8/8 w - - 4 64", "Nxg4", "wingmajority-white-k", "8/8/8/4Nk2/3Bb1p1/4P1K1/8/8 w - - 4 64|Nxg4"},

	{PawnUp, "5Kq1/8/8/4p3/8/8/4k3/8 w - - 0 57", "Kxg8", "pawnup-black", "5Kq1/8/4P3/4p3/8/8/4k3/8 w - - 0 57|Kxg8"},
	{PieceUp, "8/2b5/2k1N3/8/8/8/2K5/8 w - - 0 73", "Nxc7", "pieceup-white", "8/2r5/2k1N3/8/8/8/2K4b/8 w - - 0 73|Nxc7"},
	{PieceForPawns, "8/8/8/8/Kn6/p7/N2k4/8 w - - 0 51", "Kxb4", "pieceforpawns-white", "8/8/8/8/Kn6/8/N2k4/8 w - - 0 51|Kxb4"},
	{ExchangeUp, "8/5k2/1R2n3/8/1p6/8/1K6/8 w - - 2 58", "Rxb4", "exchangeup-white", "8/5k2/1R2r3/8/1p6/8/1K6/8 w - - 2 58|Rxb4"},
	{PiecesForRook, "1b6/1P1K3R/8/8/3n4/8/6k1/7q w - - 0 65", "Rxh1", "piecesforrook-black", "1b6/1P1K3R/8/8/8/8/6k1/7q w - - 0 65|Rxh1"},
	{RookUp, "8/8/2K5/8/1R6/k7/P7/8 b - - 0 64", "Kxa2", "rookup-white", "8/8/2K5/8/1B6/k7/P7/8 b - - 0 64|Kxa2"},
	{QueenUp, "8/PK6/8/8/8/3k4/8/8 w - - 1 76", "a8=Q", "queenup-white", "8/PK6/8/8/8/3k4/8/8 w - - 1 76|a8=R"},
	{QueenForRook, "8/2PK4/8/8/3k4/8/8/2r5 w - - 5 62", "c8=Q", "queenforrook-white", "8/2PK4/8/8/3k4/8/8/2r5 w - - 5 62|c8=R"},
	{QueenForRooks, "3r1Q1K/2k3p1/3r2P1/8/8/8/8/8 w - - 7 69", "Kxg7", "queenforrooks-white", "3r1Q1K/2k3p1/6P1/8/8/8/8/8 w - - 7 69|Kxg7"},
	{QueenForRookAndPiece, "8/5k2/5rb1/6QP/8/6K1/8/8 b - - 0 53", "Bxh5", "queenforrookandpiece-white", "8/5k2/5rbr/6QP/8/6K1/8/8 b - - 0 53|Bxh5"},
	{QueenForPieces, "2N5/p4k2/8/1p6/3P4/1P6/PKB3pB/8 b - - 1 49", "g1=Q", "queenforpieces-black", "2N5/p4k2/8/1p6/3P4/1P6/PKB3pB/8 b - - 1 49|g1=N"},
	{LevelAgain, "8/8/5k2/8/5Kp1/8/8/8 w - - 0 75", "Kxg4", "levelagain-white", "8/8/5k2/8/5Kp1/8/8/8 w - - 0 75|Ke4"},
	{TwoBishops, "5r1k/2p2N2/3p2KP/3Pb3/8/5p2/2p1N3/1bB5 b - - 1 42", "Rxf7", "twobishops-black", "5r1k/2p2N2/3p2KP/3Pb3/8/5p2/2p1N3/1nB5 b - - 1 42|Rxf7"},
	{OppositeBishops, "8/8/8/6B1/b7/5k2/2RK1P2/8 b - - 0 46", "Bxc2", "oppositebishops-white", "8/8/8/7B/b7/5k2/2RK1P2/8 b - - 0 46|Ke4"},
	{EndingBegun, "5Kq1/8/8/4p3/8/8/4k3/8 w - - 0 57", "Kxg8", "endingbegun-white-", "5Kq1/8/8/4p3/8/8/4k3/7N w - - 0 57|Kxg8"},
	{QueensGone, "1b6/1P1K3R/8/8/3n4/8/6k1/7q w - - 0 65", "Rxh1", "queensgone-white", "1b6/1P1K3R/8/8/8/8/6k1/7q w - - 0 65|Rxh1"},
	{QueensOff, "4K3/5q2/8/4k3/8/8/8/8 w - - 0 62", "Kxf7", "queensoff-white", "4K3/5q2/8/4k3/8/8/8/7q w - - 0 62|Kxf7"},

	{PositionTwice, "8/8/8/8/6k1/7p/8/7K w - - 3 84", "Kg1 Kf4 Kh1 Kg4", "positiontwice-white", "8/8/8/8/6k1/7p/8/7K w - - 3 84|Kg1 Kf4 Kh1"},
	{PositionThrice, "8/8/8/8/6k1/7p/8/7K w - - 3 84", "Kg1 Kf4 Kh1 Kg4 Kg1 Kf4 Kh1 Kg4", "positionthrice-white", "8/8/8/8/6k1/7p/8/7K w - - 3 84|Kg1 Kf4 Kh1 Kg4 Kg1 Kf4 Kh1"},
	{FiftyNear, "5n2/5k2/5p1p/5B1P/5KP1/8/8/8 w - - 79 86", "Ke4", "fiftynear-white", "5n2/5k2/5p1p/5B1P/5KP1/8/8/8 w - - 78 86|Ke4"},
	{FiftyReached, "8/8/1p6/pBk5/P1P2b2/1P6/K7/8 w - - 99 105", "Ka3", "fiftyreached-white", "8/8/1p6/pBk5/P1P2b2/1P6/K7/8 w - - 98 105|Ka3"},
	{DeadDraw, "8/8/5k2/8/5Kp1/8/8/8 w - - 0 75", "Kxg4", "deaddraw-white", "8/8/5k2/8/5Kp1/8/8/8 w - - 0 75|Ke4"},
	{LoneKing, "5Kq1/8/8/4p3/8/8/4k3/8 w - - 0 57", "Kxg8", "loneking-white", "5K1q/8/8/4p3/8/8/4k3/8 w - - 0 57|Ke7"},
}
