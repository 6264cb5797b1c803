package bitboard

import (
	"errors"
	"testing"
)

// TestParseSAN holds the reading of moves to what the PGN standard says of SAN (1994,
// section 8.2.3) and to what feeds write besides; the live path's reading (package
// relay) takes the same.
func TestParseSAN(t *testing.T) {
	const (
		twoKnights    = "4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1"   // PGN 8.2.3.4: Nce2 or Nge2
		pinnedKnight  = "4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1" // the pinned twin needs no disambiguation
		castling      = "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1"
		blackCastles  = "r3k2r/8/8/8/8/8/8/R3K2R b KQkq - 0 1"
		promotion     = "2r5/1P2P3/8/k7/8/8/8/4K3 w - - 0 1"
		blackPromotes = "4k3/8/8/8/8/8/5p2/K5N1 b - - 0 1"
		enPassant     = "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2"
		threeQueens   = "6k1/8/8/Q3Q3/8/8/8/Q3K3 w - - 0 1"
		inCheck       = "4k3/8/8/8/4r3/8/3N1N2/3NKB2 w - - 0 1" // by the rook
	)
	for _, test := range []struct{ fen, text, want string }{
		{StartFEN, "e4", "e2e4"}, {StartFEN, "e3", "e2e3"}, {StartFEN, "Nf3", "g1f3"}, {StartFEN, "Nf3!?", "g1f3"}, {StartFEN, "Nf3+", "g1f3"}, {StartFEN, "Nf3#", "g1f3"}, {StartFEN, "Nf3++", "g1f3"},
		{StartFEN, "Ng1-f3", "g1f3"}, {StartFEN, "e2-e4", "e2e4"}, {StartFEN, "e2e4", "e2e4"}, {StartFEN, "g1f3", "g1f3"}, {StartFEN, "♘f3", "g1f3"}, {StartFEN, "♞f3", "g1f3"}, {StartFEN, "Pe4", "e2e4"}, {StartFEN, "♙e4", "e2e4"},
		{StartFEN, "N1f3", "g1f3"}, {StartFEN, "Ngf3", "g1f3"}, {StartFEN, "Nxf3", "g1f3"}, {StartFEN, "N×f3", "g1f3"}, {StartFEN, " Nf3 ", "g1f3"}, {StartFEN, "Nf3 (=)", "g1f3"}, {StartFEN, "Nf3+(=)", "g1f3"},
		{twoKnights, "Nce2", "c3e2"}, {twoKnights, "Nge2", "g1e2"}, {twoKnights, "N1e2", "g1e2"}, {twoKnights, "Nc3e2", "c3e2"},
		{pinnedKnight, "Ne2", "g1e2"}, {inCheck, "Ne3", "d1e3"}, {inCheck, "Nfxe4", "f2e4"}, {inCheck, "Be2", "f1e2"},
		{threeQueens, "Qa1e1", ""}, {threeQueens, "Qa1c3", "a1c3"}, {threeQueens, "Qa5c3", "a5c3"},
		{castling, "O-O", "e1g1"}, {castling, "O-O-O", "e1c1"}, {castling, "0-0", "e1g1"}, {castling, "0-0-0+", "e1c1"}, {castling, "o-o", "e1g1"}, {castling, "o-o-o", "e1c1"}, {castling, "e1g1", "e1g1"}, {castling, "Kg1", "e1g1"}, {castling, "Kc1", "e1c1"}, {castling, "O-O!", "e1g1"}, {castling, " O-O ", "e1g1"},
		{blackCastles, "O-O", "e8g8"}, {blackCastles, "O-O-O", "e8c8"},
		{promotion, "e8=Q", "e7e8q"}, {promotion, "e8Q", "e7e8q"}, {promotion, "e8(N)", "e7e8n"}, {promotion, "e8/B", "e7e8b"}, {promotion, "bxc8=R", "b7c8r"}, {promotion, "e7e8b", "e7e8b"}, {promotion, "b8b", "b7b8b"}, {promotion, "bxc8b", "b7c8b"}, {promotion, "b7xc8=♘", "b7c8n"}, {promotion, "e8q+", "e7e8q"}, {promotion, "c8=Q", "b7c8q"},
		{blackPromotes, "fxg1=Q+", "f2g1q"}, // the standard's own long pawn move, 8.2.3
		{enPassant, "exd6", "e5d6"}, {enPassant, "exd6 e.p.", "e5d6"}, {enPassant, "exd6e.p.", "e5d6"}, {enPassant, "d6", "e5d6"}, {enPassant, "ed", ""},
	} {
		p := mustFEN(t, test.fen)
		m, err := p.ParseSAN(test.text)
		if test.want == "" && err == nil || test.want != "" && (err != nil || m.String() != test.want) {
			t.Errorf("%s in %q = %v, %v, want %q", test.text, test.fen, m, err, test.want)
		}
		if again, errAgain := p.ParseSANBytes([]byte(test.text)); again != m || errAgain != err {
			t.Errorf("%s as bytes = %v, %v, as text %v, %v", test.text, again, errAgain, m, err)
		}
	}
}

func TestParseSANRefuses(t *testing.T) {
	const (
		twoKnights = "4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1"
		pinned     = "4r1k1/8/8/8/8/8/4N3/4K3 w - - 0 1"
		through    = "4kr2/8/8/8/8/8/8/4K2R w K - 0 1" // the king would pass f1
		kept       = "1r2k3/8/8/8/8/8/8/R3K3 w Q - 0 1"
		late       = "4k3/8/8/3pP3/8/8/8/4K3 w - - 0 2"
		shield     = "8/8/8/K2pP2r/8/8/8/4k3 w - d6 0 2" // both pawns leave the rank
		backwards  = "4k3/8/8/8/4r3/8/4K3/8 w - - 0 1"   // the rook sees through the king
		castling   = "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1"
		last       = "4k3/8/8/8/8/8/5p2/K7 b - - 0 1"
	)
	for _, test := range []struct {
		fen, text string
		want      error
	}{
		{StartFEN, "e5", ErrIllegal}, {StartFEN, "Ke2", ErrIllegal}, {StartFEN, "Pg1-f3", ErrIllegal}, {StartFEN, "O-O", ErrIllegal}, {StartFEN, "e2e4q", ErrIllegal}, {StartFEN, "e7e5", ErrIllegal}, {StartFEN, "e4e5", ErrIllegal}, {StartFEN, "Kg1", ErrIllegal}, {StartFEN, "g1f3q", ErrIllegal},
		{twoKnights, "Ne2", ErrAmbiguous}, {pinned, "Nc3", ErrIllegal}, {through, "O-O", ErrIllegal}, {through, "Kg1", ErrIllegal}, {late, "exd6", ErrIllegal}, {shield, "exd6", ErrIllegal}, {backwards, "Ke1", ErrIllegal}, {castling, "Kag1", ErrIllegal},
		{last, "f1", ErrIllegal}, {last, "f1=K", ErrNotMove}, {last, "f1=P", ErrNotMove}, {last, "f1=QQ", ErrNotMove}, {last, "Kf1=Q", ErrNotMove},
		{StartFEN, "", ErrNotMove}, {StartFEN, "N", ErrNotMove}, {StartFEN, "Nf9", ErrNotMove}, {StartFEN, "hello", ErrNotMove}, {StartFEN, "--", ErrNotMove}, {StartFEN, "+", ErrNotMove}, {StartFEN, "Nf3Nf3", ErrNotMove}, {StartFEN, "e2e4e5", ErrNotMove}, {StartFEN, "NN", ErrNotMove}, {StartFEN, "4e", ErrNotMove}, {StartFEN, "Nggf3", ErrNotMove}, {StartFEN, "O-O-O-O", ErrNotMove}, {castling, "O-O!!!!-", ErrNotMove}, {castling, "0-0-0 and more", ErrNotMove}, {StartFEN, "N f3", ErrNotMove}, {StartFEN, "Nf3\x00", ErrNotMove}, {StartFEN, "é4", ErrNotMove},
	} {
		p := mustFEN(t, test.fen)
		if m, err := p.ParseSAN(test.text); !errors.Is(err, test.want) || m != NoMove {
			t.Errorf("%q in %s: %v, err = %v, want %q", test.text, test.fen, m, err, test.want)
		}
	}
	p := mustFEN(t, kept)
	if m, err := p.ParseSAN("O-O-O"); err != nil || m.String() != "e1c1" {
		t.Errorf("castling with b1 attacked is %v, %v; only the king's own way matters (Laws 3.8.2)", m, err)
	}
}

// TestParseSANAllocates finds a refusal or a plain move that asks for memory.
func TestParseSANAllocates(t *testing.T) {
	p := Start()
	room := make([]Move, 0, MaxMoves)
	text := make([]byte, 0, 8)
	for _, word := range []string{"Nf3", "e4", "♘f3", "Ke2", "O-O", "hello", "Nf3 (=)", "quite another long word e.p."} {
		if n := testing.AllocsPerRun(10, func() { p.ParseSAN(word) }); n != 0 {
			t.Errorf("ParseSAN(%q) allocates %v times", word, n)
		}
	}
	for name, f := range map[string]func(){
		"Moves":     func() { p.Moves(room) },
		"AppendSAN": func() { p.AppendSAN(text, NewMove(G1, F3, NoPieceType)) },
		"Make":      func() { next := p; next.Make(NewMove(G1, F3, NoPieceType)) },
		"Exchange":  func() { p.Exchange(NewMove(G1, F3, NoPieceType)) },
		"HasMove":   func() { p.HasMove() },
	} {
		if n := testing.AllocsPerRun(10, f); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
	}
}

// TestSAN holds disambiguation and marks to PGN 8.2.3.4 and 8.2.3.5.
func TestSAN(t *testing.T) {
	for _, test := range []struct{ fen, move, want string }{
		{StartFEN, "g1f3", "Nf3"},
		{"4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1", "c3e2", "Nce2"},
		{"4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1", "g1e2", "Ne2"}, // the other is pinned
		{"6k1/8/8/Q3Q3/8/8/8/Q3K3 w - - 0 1", "a5c3", "Qa5c3"}, // e5 shares the rank, a1 the file
		{"7k/8/Q1Q5/8/Q7/8/8/4K3 w - - 0 1", "a6a5", "Q6a5"},
		{"7k/8/8/8/Q1Q5/8/Q7/4K3 w - - 0 1", "a4b3", "Qa4b3"}, // c4 shares the rank, a2 the file
		{"4k3/R7/8/8/8/8/8/R3K3 w Q - 0 1", "a1a4", "R1a4"},
		{"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2", "e5d6", "exd6"},
		{"7k/P7/8/8/8/8/8/4K3 w - - 0 1", "a7a8q", "a8=Q+"},
		{"r6k/1P6/8/8/8/8/8/4K3 w - - 0 1", "b7a8n", "bxa8=N"},
		{"r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "e1c1", "O-O-O"},
		{"5k2/8/8/8/8/8/8/4K2R w K - 0 1", "e1g1", "O-O+"},
		{"6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", "a1a8", "Ra8#"},
		{"7k/8/6K1/8/8/8/8/5Q2 w - - 0 1", "f1f7", "Qf7"}, // stalemate has no mark
	} {
		p := mustFEN(t, test.fen)
		m := moveNamed(t, &p, test.move)
		if got := p.SAN(m); got != test.want {
			t.Errorf("SAN of %s in %s is %s, want %s", test.move, test.fen, got, test.want)
		}
	}
}

func moveNamed(tb testing.TB, p *Position, name string) Move {
	tb.Helper()
	for _, m := range p.Moves(nil) {
		if m.String() == name {
			return m
		}
	}
	tb.Fatalf("%s is not legal in %s", name, p.FEN())
	return NoMove
}
