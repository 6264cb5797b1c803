package bitboard

import "testing"

// TestExchange holds exchanges to sums worked out by hand, which stand beside them.
func TestExchange(t *testing.T) {
	for _, test := range []struct {
		name, fen, move string
		want            int
	}{
		{"a pawn for nothing", "4k3/8/8/3p4/8/8/8/3RK3 w - - 0 1", "Rxd5", 100},
		{"a rook for a defended pawn", "4k3/8/4p3/3p4/8/8/8/3RK3 w - - 0 1", "Rxd5", 100 - 500},
		{"a pawn takes a defended knight", "4k3/8/4p3/3n4/4P3/8/8/4K3 w - - 0 1", "exd5", 300 - 100},
		{"two rooks behind each other against one defender", "3rk3/8/8/3p4/8/8/3R4/3RK3 w - - 0 1", "Rxd5", 100}, // the rook would only be exchanged
		{"two against two", "3qk3/3r4/8/3p4/8/8/3R4/3RK3 w - - 0 1", "Rxd5", 100 - 500},
		{"a bishop stands behind the queen", "7k/8/5n2/3p4/4Q3/5B2/8/4K3 w - - 0 1", "Qxd5", 100 - 900 + 300},
		{"the pawn first, then the bishop behind it", "4k3/8/2p5/3p4/4P3/5B2/8/4K3 w - - 0 1", "exd5", 100}, // + 100 - 100 + 100
		{"a knight goes where a pawn takes it", "4k3/8/4p3/8/8/2N5/8/4K3 w - - 0 1", "Nd5", -300},
		{"a quiet move to a safe square", "4k3/8/8/8/8/2N5/8/4K3 w - - 0 1", "Nd5", 0},
		{"the king takes what is not defended", "8/8/3k4/3p4/8/8/8/3RK3 w - - 0 1", "Rxd5+", 100 - 500},
		{"the king may not take what is defended", "8/8/3k4/3p4/4P3/8/8/3RK3 w - - 0 1", "Rxd5+", 100},
		{"nor what a piece behind defends", "8/8/3k4/3p4/8/8/3R4/3RK3 w - - 0 1", "Rxd5+", 100},
		{"en passant, taken back", "4k3/4p3/8/2Pp4/8/8/8/4K3 w - d6 0 1", "cxd6", 0}, // + 100 - 100
		{"en passant opens the file for the one behind", "3rk3/8/8/2Pp4/8/8/8/3RK3 w - d6 0 1", "cxd6", 100},
		{"a promotion for nothing", "7k/P7/8/8/8/8/8/4K3 w - - 0 1", "a8=Q+", 900 - 100},
		{"a promotion, taken back", "1r5k/P7/8/8/8/8/8/4K3 w - - 0 1", "a8=Q", -100},
		{"a promotion with capture, not taken back", "1r5k/P7/8/8/8/8/8/4K3 w - - 0 1", "axb8=Q+", 500 + 900 - 100},
		{"a capture and a promotion at once", "4k3/8/8/8/8/8/1p6/R2NK3 b - - 0 1", "bxa1=Q", 500 + 900 - 100},
		{"a rook on the last rank, where a pawn can take", "4k3/8/8/8/8/8/1p6/2R1K3 w - - 0 1", "Ra1", -500 - (900 - 100)},
		{"a pinned defender takes part all the same", "4k3/8/4n3/8/5p2/8/6N1/4R1K1 w - - 0 1", "Nxf4", 100 - 300},
		{"castling", "4k3/8/8/8/8/8/8/4K2R w K - 0 1", "O-O", 0},
		{"Black's move counts for Black", "3rk3/8/8/3P4/8/8/8/4K3 b - - 0 1", "Rxd5", 100},
		{"knights, then a pawn", "4k3/8/3p4/4n3/8/5N2/8/4RK2 w - - 0 1", "Nxe5", 100}, // + 300 - 300 + 100
		{"the queen does not take, it would be lost", "3qk3/8/8/3n4/2P1P3/8/8/4K3 w - - 0 1", "exd5", 300},
	} {
		p := mustFEN(t, test.fen)
		m, err := p.ParseSAN(test.move)
		if err != nil {
			t.Errorf("%s: %s: %v", test.name, test.move, err)
			continue
		}
		if got := p.Exchange(m); got != test.want {
			t.Errorf("%s: %s wins %d, want %d", test.name, test.move, got, test.want)
		}
	}
}

// TestExchangePlayedOut holds the exchanges of all moves in the positions of library
// games to captures made one by one on a board.
func TestExchangePlayedOut(t *testing.T) {
	const every = 500
	checked, nonzero := 0, 0
	for i, game := range libraryGames(t, "big_big.pgn") {
		if i%every != 0 {
			continue
		}
		p := begin(t, &game)
		for _, move := range game.Moves {
			for _, m := range p.Moves(nil) {
				got, want := p.Exchange(m), exchangeByHand(p, m)
				if got != want {
					t.Errorf("%s in %s wins %d, want %d", m, p.FEN(), got, want)
				}
				checked++
				if want != 0 {
					nonzero++
				}
			}
			play(t, &p, move.SAN)
		}
	}
	t.Logf("%d moves, %d of them with a gain or a loss", checked, nonzero)
	if nonzero < 1000 {
		t.Errorf("only %d moves with a gain or a loss", nonzero)
	}
}

func exchangeByHand(p Position, m Move) int {
	next := p
	next.Make(m)
	return material(&next, p.turn) - material(&p, p.turn) - captureBest(next, m.To())
}

// material is what a side's pieces are worth more than the other's.
func material(p *Position, side Colour) int {
	sum := 0
	for square := range p.Occupied().All() {
		if piece := p.Piece(square); piece.Colour() == side {
			sum += Value(piece.Type())
		} else {
			sum -= Value(piece.Type())
		}
	}
	return sum
}

// captureBest is what the side to move gains by capturing on the square, or by not.
func captureBest(p Position, square Square) int {
	from, kind := cheapest(&p, square, p.turn)
	if from == NoSquare {
		return 0
	}
	next := p
	next.remove(p.Piece(from), from)
	next.remove(p.Piece(square), square)
	next.turn = p.turn.Other()
	if _, any := cheapest(&next, square, next.turn); kind == King && any != NoPieceType {
		return 0
	}
	if kind == Pawn && (square.Rank() == 0 || square.Rank() == 7) {
		kind = Queen
	}
	next.put(NewPiece(p.turn, kind), square)
	return max(0, material(&next, p.turn)-material(&p, p.turn)-captureBest(next, square))
}

func cheapest(p *Position, square Square, side Colour) (Square, PieceType) {
	for kind := Pawn; kind <= King; kind++ {
		for from := range p.Pieces(side, kind).All() {
			if walkAttacks(from, NewPiece(side, kind), p.Occupied()).Has(square) {
				return from, kind
			}
		}
	}
	return NoSquare, NoPieceType
}
