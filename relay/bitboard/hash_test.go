package bitboard

import "testing"

// TestGenerator holds the generator to numbers of its published form, seed 1234567:
// they are widely used to check implementations (from memory).
func TestGenerator(t *testing.T) {
	g := generator(1234567)
	for _, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821} {
		if got := g.next(); got != want {
			t.Errorf("next is %d, want %d", got, want)
		}
	}
}

// TestHashGolden pins hashes that index files depend on. They are our own: if this test
// fails, files written before can no longer be read.
func TestHashGolden(t *testing.T) {
	for _, test := range []struct {
		fen  string
		want uint64
	}{
		{StartFEN, 0xf7084208cc4981e0},
		{"rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1", 0xe8b4c77af848a63a},
		{"r3k2r/8/8/8/8/8/8/R3K2R w Kq - 0 1", 0xcab311acb4c68270},
		{"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2", 0x3446912b08a8544e},
		{"8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1", 0x86b908fcda80da0e},
	} {
		p := mustFEN(t, test.fen)
		if got := p.Hash(); got != test.want {
			t.Errorf("hash of %s is %#x, want %#x", test.fen, got, test.want)
		}
	}
}

// TestHashSame holds the hash to what the Laws call the same position (article 9.2.3):
// en passant counts only while it is possible, rights to castle count, counters do not.
func TestHashSame(t *testing.T) {
	for _, test := range []struct {
		name, a, b string
		same       bool
	}{
		{"nobody to take", "4k3/8/8/8/4P3/8/8/4K3 b - e3 0 1", "4k3/8/8/8/4P3/8/8/4K3 b - - 7 30", true},
		{"can be taken", "4k3/8/8/8/3pP3/8/8/4K3 b - e3 0 1", "4k3/8/8/8/3pP3/8/8/4K3 b - - 0 1", false},
		{"no king behind the taker", "3rk3/8/8/8/3pP3/8/8/3RK3 b - e3 0 1", "3rk3/8/8/8/3pP3/8/8/3RK3 b - - 0 1", false},
		{"the taker is pinned", "3k4/8/8/8/3pP3/8/8/3RK3 b - e3 0 1", "3k4/8/8/8/3pP3/8/8/3RK3 b - - 0 1", true},
		{"both pawns shield the king", "8/8/8/8/k2pP2R/8/8/4K3 b - e3 0 1", "8/8/8/8/k2pP2R/8/8/4K3 b - - 0 1", true},
		{"right to castle", "4k3/8/8/8/8/8/8/R3K3 w Q - 0 1", "4k3/8/8/8/8/8/8/R3K3 w - - 0 1", false},
		{"a right that cannot be", "4k3/8/8/8/8/8/8/R3K3 w KQ - 0 1", "4k3/8/8/8/8/8/8/R3K3 w Q - 0 1", true},
		{"side to move", "4k3/8/8/8/8/8/8/R3K3 w - - 0 1", "4k3/8/8/8/8/8/8/R3K3 b - - 0 1", false},
	} {
		a, b := mustFEN(t, test.a), mustFEN(t, test.b)
		if same := a.Hash() == b.Hash(); same != test.same {
			t.Errorf("%s: same is %v, want %v", test.name, same, test.same)
		}
	}
}

// TestHashWays plays to one position in two orders of moves.
func TestHashWays(t *testing.T) {
	a, b := Start(), Start()
	play(t, &a, "e4", "e5", "Nf3", "Nc6", "Bb5")
	play(t, &b, "Nf3", "Nc6", "e4", "e5", "Bb5")
	if a.Hash() != b.Hash() {
		t.Errorf("hashes %x and %x of %s and %s", a.Hash(), b.Hash(), a.FEN(), b.FEN())
	}
}

func play(tb testing.TB, p *Position, sans ...string) {
	tb.Helper()
	for _, san := range sans {
		m, err := p.ParseSAN(san)
		if err != nil {
			tb.Fatalf("%s in %s: %v", san, p.FEN(), err)
		}
		p.Make(m)
	}
}

// TestKeysDiffer finds a key drawn twice or left empty.
func TestKeysDiffer(t *testing.T) {
	seen := map[uint64]bool{0: true}
	n := 0
	count := func(keys ...uint64) {
		for _, key := range keys {
			if seen[key] {
				t.Errorf("key %x twice or zero", key)
			}
			seen[key], n = true, n+1
		}
	}
	for piece := range pieceKeys {
		if t := Piece(piece).Type(); t >= Pawn && t <= King {
			count(pieceKeys[piece][:]...)
		}
	}
	count(castleKeys[:8]...)
	count(castleKeys[56:]...)
	count(passantKeys[:]...)
	count(blackKey)
	if n != 12*64+16+8+1 {
		t.Errorf("%d keys", n)
	}
}
