package prompt

import (
	"testing"

	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
	"clocktell/relay/remark"
)

// shapes are how many squares the remarks of a rule have, and between which amounts, where it is not
// two squares and none.
type shape struct {
	squares []int
	amounts []int16
}

var (
	none = shape{squares: []int{0}}
	one  = shape{squares: []int{1}}
)

var shapes = map[remark.Rule]shape{
	remark.MateForced: {[]int{3}, []int16{2, 3}}, remark.PawnsLeft: {[]int{0}, []int16{11, 33, 10, 1, 32, 45}}, remark.Opposition: {[]int{2}, []int16{0, 1}},
	remark.FileHeld: one, remark.PawnThorn: one, remark.KingCutOff: {squares: []int{3}},
	remark.MateHere: {squares: []int{3}}, remark.MateThreatened: {squares: []int{3}},
	remark.ForkOffered: {[]int{4, 5}, []int16{200, 900}}, remark.SkewerOffered: {[]int{4}, []int16{200, 500}},
	remark.DiscoveryOffered: {[]int{4, 5}, []int16{300}}, remark.DoubleDuty: {[]int{3}, []int16{300}},
	remark.GuardRemovable: {[]int{3}, []int16{300}}, remark.PieceHangs: {[]int{2}, []int16{300}}, remark.PieceTrapped: {[]int{2}, []int16{200}},
	remark.TrapOffered: {[]int{3}, []int16{300}}, remark.NoSquareLeft: {[]int{3}, []int16{300}},
	remark.PinAttacked: {squares: []int{4}}, remark.PinLasting: {squares: []int{3}}, remark.NoSafeSquare: {squares: []int{1}},
	remark.CastlingPrevented: {squares: []int{3, 4}}, remark.CastlingGivenUp: {squares: []int{1}}, remark.KingLate: {squares: []int{1}},
	remark.KingUnderFire: {[]int{1}, []int16{30, 31, 42, 53, 72}}, remark.CoverGone: {[]int{2}, []int16{0, 1}},
	remark.Hole: {squares: []int{3}}, remark.BadBishop: {squares: []int{3, 4}}, remark.ShortOfMoves: {[]int{0}, []int16{4, 15}},
	remark.FileTaken: {squares: []int{1}}, remark.SeventhRank: {squares: []int{1}}, remark.PasserFar: {[]int{1}, []int16{1, 2}},
	remark.PasserNew: {squares: []int{1}}, remark.IsolatedQueensPawn: {squares: []int{1}}, remark.DoubledIsolated: {squares: []int{2, 3}},
	remark.CentreClosed: {squares: []int{4}}, remark.WingMajority: {[]int{0}, []int16{1, 2}}, remark.OppositeWings: {squares: []int{0}},
	remark.PawnUp: {[]int{0}, pawnsMore[5:]}, remark.PieceForPawns: {[]int{0}, pawnsMore[5:]},
	remark.PieceUp: {[]int{0}, pawnsMore}, remark.ExchangeUp: {[]int{0}, pawnsMore}, remark.PiecesForRook: {[]int{0}, pawnsMore},
	remark.RookUp: {[]int{0}, pawnsMore}, remark.QueenUp: {[]int{0}, pawnsMore}, remark.QueenForRook: {[]int{0}, pawnsMore},
	remark.QueenForRooks: {[]int{0}, pawnsMore}, remark.QueenForRookAndPiece: {[]int{0}, pawnsMore}, remark.QueenForPieces: {[]int{0}, pawnsMore},
	remark.LevelAgain: {squares: []int{0}}, remark.TwoBishops: {squares: []int{0}}, remark.OppositeBishops: {[]int{0}, []int16{0, 1}},
	remark.PassersFar: {squares: []int{2}},
	remark.QueensGone: {[]int{0}, []int16{0b100000_010001, 0b010001_010001, 0b010101_010101, 0b100100_100001}},
	remark.QueensOff:  {squares: []int{0}}, remark.EndingBegun: {[]int{0}, []int16{10, 1, 11, 20, 21, 43, 55, 87}},
	remark.PositionTwice: {[]int{0}, []int16{2}}, remark.PositionThrice: {[]int{0}, []int16{3, 4, 5}},
	remark.FiftyNear: {[]int{0}, []int16{80, 90}}, remark.FiftyReached: {[]int{0}, []int16{100, 149}},
	remark.NothingTaken: none, remark.PiecesAllOn: none, remark.NobodyCastled: none, remark.CentreEmpty: none, remark.PawnsAlike: none,
	remark.PawnsLocked: {[]int{0}, []int16{5, 6, 8}}, remark.FileFree: {[]int{0}, []int16{0, 4, 7}}, remark.SquareFought: {[]int{1}, []int16{33, 43, 36}},
	remark.NoCaptureLong: none, remark.MinorsGone: none, remark.RooksGone: none, remark.BishopsAlike: none,
	remark.OneWing: none, remark.LastPawn: one, remark.MoreSpace: {[]int{0}, []int16{30, 31, 42}}, remark.Unmoved: one,
	remark.LongDiagonal: one, remark.Immobile: one, remark.IslandsMore: {[]int{0}, []int16{31, 42, 53}}, remark.KingGuardsAlone: one,
	remark.KingWalked: one, remark.PasserAside: one, remark.BishopForKnight: none, remark.NoPawnsLeft: none, remark.SameMan: one,
	remark.NoOpenFile: none, remark.OnePieceOff: none, remark.PawnsAllOn: none, remark.NoCheckYet: none, remark.NoPasser: none, remark.OneCastled: one, remark.BroadCentre: {squares: []int{2}}, remark.RookUnmoved: one,
	remark.ChecksInRow: none, remark.QueenOften: none,
	remark.DeadDraw: {squares: []int{0}}, remark.LoneKing: {squares: []int{0}},
}

var pawnsMore = []int16{-4, -3, -2, -1, 0, 1, 2, 3, 4, 8}

// remarks makes remarks of every rule with every kind of man.
func remarks() []remark.Remark {
	var out []remark.Remark
	squares := []remark.Square{bitboard.D5, bitboard.E4, bitboard.B7, bitboard.G1, bitboard.H8}
	for _, rule := range remark.Rules() {
		shape := shapes[rule]
		if shape.squares == nil {
			shape.squares = []int{2}
		}
		if shape.amounts == nil {
			shape.amounts = []int16{0}
		}
		for _, n := range shape.squares {
			for _, amount := range shape.amounts {
				for kind := bitboard.Pawn; kind <= bitboard.King; kind++ {
					var men []remark.Piece
					for i := range n {
						men = append(men, bitboard.NewPiece(bitboard.White, 1+(kind+bitboard.PieceType(i/2)-1)%6))
					}
					r := remark.Remark{Rule: rule, Amount: amount, Wing: facts.QueenSide, Kind: kind % 6, Move: bitboard.NewMove(bitboard.D5, bitboard.E4, 0)}
					out = append(out, r.Of(squares[:n], men))
				}
			}
		}
	}
	return out
}

// positions says every remark in a language.
func positions(in Language) []Prompt {
	var out []Prompt
	for _, name := range []string{"Achterkamp", "Przybyszewska-Hollenbach"} {
		for _, r := range remarks() {
			out = append(out, Position(in, &r, name))
		}
	}
	return out
}

// TestMarks: what is pointed at are squares of the remark or of its move, and lines have two ends.
func TestMarks(t *testing.T) {
	for _, r := range remarks() {
		known := map[string]bool{r.Move.To().String(): true}
		for _, on := range r.Squares() {
			known[on.String()] = true
		}
		p := Position(English, &r, "A")
		if len(r.Squares()) > 0 && len(p.Marks) == 0 {
			t.Errorf("%s points at nothing", r)
		}
		for _, m := range p.Marks {
			if !known[m.To] || (m.From == "") != (m.Kind == MarkLook) || m.From != "" && !known[m.From] || m.From == m.To {
				t.Errorf("%s: %+v", r, m)
			}
		}
	}
}

// TestCases: German articles and cases, and English numbers.
func TestCases(t *testing.T) {
	of := func(rule remark.Rule, kinds ...bitboard.PieceType) remark.Remark {
		var men []remark.Piece
		for _, kind := range kinds {
			men = append(men, bitboard.NewPiece(bitboard.White, kind))
		}
		r := remark.Remark{Rule: rule, Move: bitboard.NewMove(bitboard.D5, bitboard.E4, 0), Amount: 300}
		return r.Of([]remark.Square{bitboard.D5, bitboard.E4, bitboard.B7, bitboard.G1}[:len(men)], men)
	}
	const n, b, r, q, k = bitboard.Knight, bitboard.Bishop, bitboard.Rook, bitboard.Queen, bitboard.King
	for _, test := range []struct {
		said            remark.Remark
		english, german string
	}{
		{of(remark.ForkOffered, n, 0, r, r), "A can fork two rooks: knight to e4.", "A hat eine Gabel auf zwei Türme: Springer nach e4."},
		{of(remark.ForkOffered, q, 0, k, b), "A can fork king and bishop: queen to e4.", "A hat eine Gabel auf König und Läufer: Dame nach e4."},
		{of(remark.DiscoveryOffered, n, 0, r, q), "A has a discovered attack on the queen: knight to e4.", "A hat einen Abzug gegen die Dame: Springer nach e4."},
		{of(remark.GuardRemovable, q, r, n), "Only the queen on d5 guards the rook on e4, and it can be taken.", "Nur die Dame auf d5 deckt den Turm auf e4, und die Deckung kann fallen."},
		{of(remark.PieceHangs, q, b), "The queen on d5 hangs: the bishop on e4 can take it.", "Die Dame auf d5 hängt: der Läufer auf e4 kann schlagen."},
		{of(remark.PinLasting, n, b, q), "The knight on d5 is still pinned to the queen.", "Der Springer auf d5 ist noch immer an die Dame gefesselt."},
		{of(remark.PasserBlocked, bitboard.Pawn, n), "The knight on e4 blocks the passed pawn on d5.", "Der Springer auf e4 blockiert den Freibauern auf d5."},
	} {
		if got := Position(English, &test.said, "A").Text; got != test.english {
			t.Errorf("%s: %q, want %q", test.said, got, test.english)
		}
		if got := Position(German, &test.said, "A").Text; got != test.german {
			t.Errorf("%s: %q, want %q", test.said, got, test.german)
		}
	}
}
