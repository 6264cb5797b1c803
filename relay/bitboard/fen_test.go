package bitboard

import (
	"strings"
	"testing"
)

// TestFENRoundTrip reads and writes the examples of the standard (PGN 16.1.4) and some
// positions more.
func TestFENRoundTrip(t *testing.T) {
	for _, fen := range []string{
		"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
		"rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1",
		"rnbqkbnr/pp1ppppp/8/2p5/4P3/8/PPPP1PPP/RNBQKBNR w KQkq c6 0 2",
		"rnbqkbnr/pp1ppppp/8/2p5/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2",
		"4k3/8/8/8/8/8/4P3/4K3 w - - 5 39",
		"r3k2r/8/8/8/8/8/8/R3K2R w Kq - 65535 65535",
	} {
		p := mustFEN(t, fen)
		if got := p.FEN(); got != fen {
			t.Errorf("%s comes back as %s", fen, got)
		}
	}
}

// TestFENOfMoves plays the moves of the standard's examples (PGN 16.1.4).
func TestFENOfMoves(t *testing.T) {
	p := Start()
	for _, step := range []struct{ san, want string }{
		{"e4", "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1"},
		{"c5", "rnbqkbnr/pp1ppppp/8/2p5/4P3/8/PPPP1PPP/RNBQKBNR w KQkq c6 0 2"},
		{"Nf3", "rnbqkbnr/pp1ppppp/8/2p5/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2"},
	} {
		if play(t, &p, step.san); p.FEN() != step.want {
			t.Errorf("after %s %s, want %s", step.san, p.FEN(), step.want)
		}
	}
	if p.Ply() != 3 || p.MoveNumber() != 2 || p.HalfmoveClock() != 1 || p.Turn() != Black {
		t.Errorf("ply %d, move %d, clock %d, %s to move", p.Ply(), p.MoveNumber(), p.HalfmoveClock(), p.Turn())
	}
}

// TestFENMended holds what is taken though it is not in order.
func TestFENMended(t *testing.T) {
	for _, test := range []struct{ name, fen, want string }{
		{"no counters", "4k3/8/8/8/8/8/4P3/4K3 b - -", "4k3/8/8/8/8/8/4P3/4K3 b - - 0 1"},
		{"move 0", "4k3/8/8/8/8/8/4P3/4K3 b - - 0 0", "4k3/8/8/8/8/8/4P3/4K3 b - - 0 1"},
		{"rights without king or rook", "4k2r/8/8/8/8/8/8/R2K3R w KQkq - 0 1", "4k2r/8/8/8/8/8/8/R2K3R w k - 0 1"},
		{"rights in another order, twice", "4k3/8/8/8/8/8/8/R3K2R w QKQ - 0 1", "4k3/8/8/8/8/8/8/R3K2R w KQ - 0 1"},
		{"no pawn has passed", "4k3/8/8/8/8/8/8/R3K2R w KQ d6 0 1", "4k3/8/8/8/8/8/8/R3K2R w KQ - 0 1"},
		{"the pawn came from nowhere", "4k3/3p4/8/3p4/8/8/8/4K3 w - d6 0 1", "4k3/3p4/8/3p4/8/8/8/4K3 w - - 0 1"},
		{"spaces", "  4k3/8/8/8/8/8/4P3/4K3  b - -   3 4 ", "4k3/8/8/8/8/8/4P3/4K3 b - - 3 4"},
	} {
		p := mustFEN(t, test.fen)
		if got := p.FEN(); got != test.want {
			t.Errorf("%s: %s is taken for %s, want %s", test.name, test.fen, got, test.want)
		}
	}
}

func TestFENRefused(t *testing.T) {
	for _, test := range []struct{ fen, want string }{
		{"", "0 fields, want 6"},
		{"4k3/8/8/8/8/8/8/4K3 w - - 0", "5 fields, want 6"},
		{"4k3/8/8/8/8/8/4K3 w - - 0 1", "7 ranks, want 8"},
		{"4k3/8/8/8/8/8/8/4K4 w - - 0 1", "rank 1 has 9 squares"},
		{"4k3/7/8/8/8/8/8/4K3 w - - 0 1", "rank 7 has 7 squares"},
		{"4k3/ppppppppp/8/8/8/8/8/4K3 w - - 0 1", "rank 7 has 9 squares"},
		{"4k3/8/8/4x3/8/8/8/4K3 w - - 0 1", `rank 5: 'x' is no piece`},
		{"4k3/8/8/4\x003/8/8/8/4K3 w - - 0 1", `is no piece`},
		{"4k3/8/8/9/8/8/8/4K3 w - - 0 1", `'9' is no piece`},
		{"4k3/8/8/8/8/8/8/4K3 W - - 0 1", `side to move is "W", want w or b`},
		{"4k3/8/8/8/8/8/8/4K3 w KX - 0 1", `castling has 'X'`},
		{"4k3/8/8/8/8/8/8/4K3 w - e3 0 1", `en passant is "e3", want - or a square of rank 6`},
		{"4k3/8/8/8/8/8/8/4K3 b - e6 0 1", "square of rank 3"},
		{"4k3/8/8/8/8/8/8/4K3 w - e 0 1", `en passant is "e"`},
		{"4k3/8/8/8/8/8/8/4K3 w - - -1 1", `half-move clock is "-1"`},
		{"4k3/8/8/8/8/8/8/4K3 w - - 0 65536", `move number is "65536"`},
		{"8/8/8/8/8/8/8/4K3 w - - 0 1", "Black has 0 kings"},
		{"4k3/8/8/8/8/8/8/K3K3 w - - 0 1", "White has 2 kings"},
		{"4k2P/8/8/8/8/8/8/4K3 w - - 0 1", "a pawn stands on h8"},
		{"4k3/8/8/8/8/8/8/p3K3 w - - 0 1", "a pawn stands on a1"},
		{"4k3/8/8/8/8/8/4R3/4K3 w - - 0 1", "Black is in check and White is to move"},
		{"8/8/8/8/8/8/3k4/4K3 w - - 0 1", "Black is in check"},
	} {
		_, err := ParseFEN(test.fen)
		if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "FEN ") {
			t.Errorf("%s: err = %v, want %q", test.fen, err, test.want)
		}
	}
	if p := Start(); p.FEN() != StartFEN {
		t.Errorf("the start is %s", p.FEN())
	}
}

// TestCountersStop holds the counters to mostCounted.
func TestCountersStop(t *testing.T) {
	p := mustFEN(t, "4k3/8/8/8/8/8/4P3/4K3 b - - 65534 65534")
	for range 2 {
		play(t, &p, "Kd8", "Kd1", "Ke8", "Ke1")
	}
	if want := "4k3/8/8/8/8/8/4P3/4K3 b - - 65535 65535"; p.FEN() != want {
		t.Errorf("%s, want %s", p.FEN(), want)
	}
}

// TestSquares holds names to numbers.
func TestSquares(t *testing.T) {
	for number, square := range []Square{A1, B1, C1, D1, E1, F1, G1, H1, A2} {
		if int(square) != number {
			t.Errorf("%s is %d, want %d", square, square, number)
		}
	}
	for square := range NoSquare {
		if got, ok := ParseSquare(square.String()); !ok || got != square || NewSquare(square.File(), square.Rank()) != square {
			t.Errorf("%s comes back as %s, %v", square, got, ok)
		}
	}
	for _, name := range []string{"", "e", "e9", "i1", "e44", "4e", "-"} {
		if got, ok := ParseSquare(name); ok || got != NoSquare {
			t.Errorf("%q is %s", name, got)
		}
	}
	if got := SetOf(H8, E4, A1).String(); got != "a1 e4 h8" || H8.String() != "h8" || NoSquare.String() != "-" {
		t.Errorf("set is %q", got)
	}
}
