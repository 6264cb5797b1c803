package bitboard

import (
	"math/rand/v2"
	"testing"
)

// walkAttacks finds attacks one square after the other.
func walkAttacks(square Square, piece Piece, occupied Set) Set {
	forward := 1 - 2*int(piece.Colour())
	steps, most := straight, 7
	switch piece.Type() {
	case Pawn:
		steps, most = []step{{-1, forward}, {1, forward}}, 1
	case Knight:
		steps, most = knightLike, 1
	case Bishop:
		steps = diagonal
	case Queen, King:
		steps = append(append([]step{}, straight...), diagonal...)
	}
	if piece.Type() == King {
		most = 1
	}
	var s Set
	for _, d := range steps {
		file, rank := square.File(), square.Rank()
		for range most {
			file, rank = file+d.file, rank+d.rank
			if file < 0 || file > 7 || rank < 0 || rank > 7 {
				break
			}
			s |= SetOf(NewSquare(file, rank))
			if occupied.Has(NewSquare(file, rank)) {
				break
			}
		}
	}
	return s
}

// TestAttacks holds the tables and the subtraction to a walk over the board, for every
// piece on every square and boards from nearly empty to nearly full.
func TestAttacks(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		occupied := Set(random.Uint64())
		switch random.IntN(4) {
		case 0:
			occupied &= Set(random.Uint64() & random.Uint64())
		case 1:
			occupied |= Set(random.Uint64())
		}
		for square := range Square(64) {
			for _, c := range []Colour{White, Black} {
				for kind := Pawn; kind <= King; kind++ {
					piece := NewPiece(c, kind)
					if got, want := Attacks(square, piece, occupied), walkAttacks(square, piece, occupied); got != want {
						t.Fatalf("%s on %s with %s: %s, want %s", piece, square, occupied, got, want)
					}
				}
			}
		}
	}
	if got := Attacks(E1, NoPiece, 0); got != 0 {
		t.Errorf("an empty square attacks %s", got)
	}
}

// TestLines holds between and lineThrough to walks from one square to the other.
func TestLines(t *testing.T) {
	for a := range Square(64) {
		for b := range Square(64) {
			var line, inner Set
			for _, d := range append(append([]step{}, straight...), diagonal...) {
				if ray := reach(a, 7, d); ray.Has(b) {
					line = ray | reach(a, 7, step{-d.file, -d.rank}) | SetOf(a)
					inner = ray & reach(b, 7, step{-d.file, -d.rank})
				}
			}
			if got := lineThrough(a, b); got != line {
				t.Errorf("line through %s and %s: %s, want %s", a, b, got, line)
			}
			if got := between(a, b); got != inner {
				t.Errorf("between %s and %s: %s, want %s", a, b, got, inner)
			}
		}
	}
}

// TestStandings holds checkers, pins and attackers to boards one can look at.
func TestStandings(t *testing.T) {
	p := mustFEN(t, "4r1k1/8/8/b7/8/2P5/3NR3/r2QK2n w - - 0 1")
	for name, sets := range map[string][2]Set{
		"checkers":           {p.Checkers(), 0},
		"pinned":             {p.Pinned(White), SetOf(D1, E2)},
		"Black's pinned":     {p.Pinned(Black), 0},
		"line of e2":         {p.PinLine(White, E2), FileSet(4)},
		"line of d1":         {p.PinLine(White, D1), RankSet(0)},
		"line of d2":         {p.PinLine(White, D2), ^Set(0)},
		"attackers of c3":    {p.Attackers(C3), SetOf(A5)},
		"attackers of e3":    {p.Attackers(E3), SetOf(E2, E8)},
		"and through the e2": {p.AttackersThrough(E3, p.Occupied()&^SetOf(E2)), SetOf(E2, E8)},
		"attackers of g3":    {p.Attackers(G3), SetOf(H1)},
	} {
		if sets[0] != sets[1] {
			t.Errorf("%s: %s, want %s", name, sets[0], sets[1])
		}
	}
	if p.InCheck() {
		t.Error("in check")
	}
}

// TestMaxMoves counts the moves of the fullest position known (from memory).
func TestMaxMoves(t *testing.T) {
	p := mustFEN(t, "R6R/3Q4/1Q4Q1/4Q3/2Q4Q/Q4Q2/pp1Q4/kBNN1KB1 w - - 0 1")
	if n := len(p.Moves(nil)); n != MaxMoves {
		t.Errorf("%d moves, want %d", n, MaxMoves)
	}
}

// TestEnds tells mate from stalemate and from a check with a way out.
func TestEnds(t *testing.T) {
	for _, test := range []struct {
		fen                    string
		check, mate, stalemate bool
		checkers               int
	}{
		{StartFEN, false, false, false, 0},
		{"R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1", true, true, false, 1},
		{"R5k1/5pp1/8/8/8/8/8/4K3 b - - 0 1", true, false, false, 1},
		{"7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", false, false, true, 0},
		{"4k3/8/3N4/8/8/8/8/4RK2 b - - 0 1", true, false, false, 2},
		{"8/8/8/2k5/3Pp3/8/8/4K3 b - d3 0 1", true, false, false, 1}, // a check that en passant ends too
	} {
		p := mustFEN(t, test.fen)
		if p.InCheck() != test.check || p.IsMate() != test.mate || p.IsStalemate() != test.stalemate || p.Checkers().Count() != test.checkers {
			t.Errorf("%s: check %v, mate %v, stalemate %v, checkers %s", test.fen, p.InCheck(), p.IsMate(), p.IsStalemate(), p.Checkers())
		}
	}
}

// TestIsLegal asks for every 16 bits in positions with everything rare in them: what is
// legal is what is generated.
func TestIsLegal(t *testing.T) {
	for _, fen := range append(fuzzStarts, "4k3/8/8/8/4r3/8/4K3/8 w - - 0 1", "8/8/8/2k5/3Pp3/8/8/4K3 b - d3 0 1", "r3k2r/8/8/8/8/8/8/R3K2R b KQkq - 0 1") {
		p := mustFEN(t, fen)
		legal := make(map[Move]bool)
		for _, m := range p.Moves(nil) {
			if legal[m] {
				t.Errorf("%s twice in %s", m, fen)
			}
			legal[m] = true
		}
		for bits := range 1 << 16 {
			if m := Move(bits); p.IsLegal(m) != legal[m] {
				t.Errorf("%s (%#x) in %s: legal is %v, generated %v", m, bits, fen, p.IsLegal(m), legal[m])
			}
		}
	}
}
