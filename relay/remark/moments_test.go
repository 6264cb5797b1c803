package remark

import (
	"testing"

	"clocktell/relay/bitboard"
)

// TestMoments: a finding may be said in one position and not in one that differs in what its rule asks
// of the moment. Most come from games in which a reader with a board found the words wrong.
func TestMoments(t *testing.T) {
	for _, test := range []struct {
		rule         Rule
		said, unsaid string // FENs
	}{
		// The search bears it out: a rook in the corner hangs meanwhile, or not.
		{ForkOffered, "r1b1k1nr/pppp1ppp/2n5/1N6/1b6/2N2B1q/PPP2P1P/R1BQK2R w KQkq - 2 9", "r1b1k1nr/pppp1ppp/2n5/1N6/1b6/2N5/PPP1BPqP/R1BQK2R w KQkq - 0 8"},
		// No mate can come there in two moves: bishop and queen hold the rank.
		{BackRank, "6k1/5ppp/8/8/8/8/5PP1/4R1K1 b - - 0 28", "4b1k1/1rB2ppp/4q2b/3pQ3/p7/1P1B3P/P4PP1/4R1K1 w - - 6 29"},
		// A counted pawn hangs; a pawn promotes.
		{PawnUp, "4k3/1p3p2/3p4/8/3P4/4P3/PP6/4K3 w - - 0 30", "4k3/1p3p2/3p4/8/3P4/4P3/PPr5/R3K3 w - - 0 30"},
		{PawnUp, "4k3/1p6/3p4/8/3P4/4P3/1P4P1/4K3 w - - 0 30", "4k3/P7/1p1p4/8/3P4/4P3/8/4K3 w - - 0 30"},
		{QueenUp, "4k3/1p6/3n4/8/3P4/3NP3/1Q6/4K3 b - - 0 30", "4k3/1p6/8/8/3P4/4P3/1Q6/4K3 b - - 0 30"},
		// The enemy has no pawns; one further on; an enemy pawn on its sixth rank.
		{PasserNew, "3r4/pp1k3p/8/5P2/8/8/PP3R1P/6K1 b - - 0 40", "3r4/2k5/8/5P2/8/8/PPP1PR1P/6K1 b - - 0 40"},
		{PasserNew, "3r4/pp1k3p/8/5P2/8/8/PP3R1P/6K1 b - - 0 40", "3r4/1p1k3p/P7/5P2/8/8/PP3R1P/6K1 b - - 0 40"},
		{PasserNew, "3r4/pp1k3p/8/5P2/8/8/PP3R1P/6K1 b - - 0 40", "3r4/pp1k4/8/5P2/8/4p3/PP3R1P/6K1 b - - 0 40"},
		{PassersConnected, "8/3k4/7p/P7/1P6/8/8/6K1 b - - 0 40", "8/3k4/8/P7/1P6/8/8/6K1 b - - 0 40"},
		// A rook with nothing to attack there; with one of the other side on its seventh.
		{SeventhRank, "6k1/1R3p2/8/8/8/8/5PP1/6K1 b - - 0 40", "6k1/1R6/8/8/8/8/5PP1/6K1 b - - 0 40"},
		{SeventhRank, "6k1/1R3p2/8/8/8/8/5PP1/6K1 b - - 0 40", "6k1/1R3p2/8/8/8/8/2r2PP1/6K1 b - - 0 40"},
		// A pawn that has come far, in check.
		{PasserFar, "3r4/2k4p/5P2/8/8/8/5R2/6K1 b - - 0 40", "3r4/2k4p/5P2/8/8/8/2R5/6K1 b - - 0 40"},
		// Pawns that are all passed are no news, nor is one that a man stands before.
		{PasserNew, "3r4/pp1k3p/8/5P2/8/8/PP3R1P/6K1 b - - 0 40", "8/pp1k3p/5r2/5P2/8/8/PP3R1P/6K1 b - - 0 40"},
		// Two rooks and no check are not won for sure; a king is.
		{ForkOffered, "r1b1k1nr/pppp1ppp/2n5/1N6/1b6/2N2B1q/PPP2P1P/R1BQK2R w KQkq - 2 9", "r1b1rnk1/pp3pbp/5np1/qN1p4/3Pp3/BP2P1P1/P1QN1PBP/R4RK1 w - - 2 15"},
		// The attacker of a pinned bishop can be taken; a knight that is pinned and attacked may fall.
		{PinAttacked, "8/R5bk/3p2p1/8/8/2B3qP/1P1Q2P1/6K1 b - - 1 38", "8/R5bk/3p2p1/8/8/2B2rqP/1P1Q2P1/6K1 b - - 1 38"},
		// A pawn hangs and cannot be held: to count would be too soon.
		{EndingBegun, "6k1/3R1p2/4p3/p5p1/4P3/2r5/P4PPP/6K1 w - - 0 39", "6k1/3R1p2/4p3/p3P1p1/8/4r3/P5PP/6K1 w - a6 0 39"},
		// A pawn can capture in the centre.
		{CentreClosed, "r1bq1rk1/ppp1nppp/2n1p3/3pP3/3P4/2N2N2/PPP3PP/R1BQ1RK1 w - - 0 12", "r1bq1rk1/ppp1nppp/2n1p3/3pP3/2PP4/2N2N2/PP4PP/R1BQ1RK1 w - - 0 12"},
		// The pinning man is attacked.
		{PinLasting, "4k3/5p1p/4n3/8/8/8/4R2P/4K3 b - - 0 30", "4k3/5p1p/4n3/8/2b5/8/4R2P/4K3 b - - 0 30"},
		// What is won is lost to a mate or to a pawn that promotes.
		{SkewerOffered, "8/2p1n3/5k1p/5p2/8/P1K2Q2/r7/8 b - - 0 55", "8/2p1n3/P4k1p/5p2/8/2K2Q2/r7/8 b - - 0 55"},
		{GuardRemovable, "8/8/8/8/4R2P/3k2K1/5PBP/6r1 b - - 2 57", "5r1k/2p4p/2qp1NpP/5p2/r7/2Q3P1/pP1K1P2/3RR3 b - - 3 31"},
		// The man on the file is attacked, or beside the king.
		{FileToKing, "r5k1/1p2q1p1/5p1p/3p1P2/3B3P/1P3PR1/1P6/1K1R4 b - - 0 32", "r1b1kb2/ppp2p1p/2n5/1B1p4/3Ppp2/1N4qP/PPP5/RN1Q1K1R w q - 0 14"},
		// The pawn that guards the knight can be taken.
		{KnightOutpost, "r5k1/1pq3p1/1n3pNp/p2p1P2/3B3P/1P6/1PP5/2KR2R1 w - - 1 29", "r5k1/1pq3p1/5pNp/p2p1P2/3B3P/1P3Pn1/1PP5/2KR2R1 w - - 1 29"},
		// It can promote at once, or the enemy's has come further.
		{PasserFar, "3r4/2k4p/5P2/8/8/8/5R2/6K1 b - - 0 40", "8/2k2P1p/8/8/8/8/5R2/6K1 w - - 0 40"},
		{PasserFar, "2k2n2/5P1p/8/8/8/8/5R2/6K1 b - - 0 40", "8/2k2P1p/8/8/8/8/5R2/6K1 b - - 0 40"},
		{PasserFar, "3r4/2k4p/5P2/8/8/8/5R2/6K1 b - - 0 40", "3r4/2k4p/5P2/8/8/8/1p3R2/6K1 b - - 0 40"},
		// Far ahead, or with a pawn that has come far, pawns that are doubled do not matter.
		{DoubledIsolated, "4k3/2p4p/2p5/8/8/8/5PPP/4K3 b - - 0 30", "4k3/2p4p/2p5/8/8/5N2/5PPP/4K3 b - - 0 30"},
		{DoubledIsolated, "4k3/2p4p/2p5/8/8/8/5PPP/4K3 b - - 0 30", "4k3/2p4p/P1p5/8/8/8/5PP1/4K3 b - - 0 30"},
	} {
		if !ripeAt(t, test.rule, test.said) {
			t.Errorf("%s: %s: not said", test.rule, test.said)
		}
		if ripeAt(t, test.rule, test.unsaid) {
			t.Errorf("%s: %s: said", test.rule, test.unsaid)
		}
	}
}

// ripeAt reports whether a rule finds something in a position, as the first of a game, and may say it.
func ripeAt(t *testing.T, rule Rule, fen string) bool {
	p := position(t, fen)
	sc := newScene(&p, bitboard.NoMove, &p, nil, &State{})
	sc.memory.odds = 0 // nothing was given
	for i := range sc.found {
		if sc.found[i].Rule == rule && sc.ripe(&sc.found[i]) {
			return true
		}
	}
	return false
}

// TestEndingOnce: the same kind of ending is not begun again, another is.
func TestEndingOnce(t *testing.T) {
	s := State{ply: 60, said: []saying{{rule: EndingBegun, man: bitboard.NoSquare, ply: 20, kind: 1 + uint8(bitboard.Rook)}}}
	if !rests(&Remark{Rule: EndingBegun, Kind: bitboard.Rook, Pairs: 1}, s.said, s.ply) {
		t.Error("a rook ending is said to begin again")
	}
	if rests(&Remark{Rule: EndingBegun}, s.said, s.ply) {
		t.Error("a pawn ending after a rook ending is not said")
	}
}

// TestPasserSince: a pawn that moves on is passed as long as it was, also when it captures on the next
// file; another on that file is new.
func TestPasserSince(t *testing.T) {
	states := follow(t, "4k3/8/1n6/8/P7/8/7p/4K2R w - - 0 30", "a5 Ke7 axb6 Kd7")
	if got := states[4].passers[0]; got[1] != longAgo || got[0] != 0 {
		t.Errorf("passed since %v, want the b-file since long ago", got)
	}
	states = follow(t, "4k3/p7/8/P7/8/8/8/R3K3 w - - 0 30", "Kd1 Kd7 Ke1")
	if got := states[3].passers[0]; got[0] != 0 {
		t.Errorf("passed since %v, want none", got)
	}
}
