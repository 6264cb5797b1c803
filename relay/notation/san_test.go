package notation

import (
	"strings"
	"testing"

	"github.com/notnil/chess"
)

func position(t *testing.T, fen string) *chess.Position {
	t.Helper()
	if fen == "" {
		return chess.StartingPosition()
	}
	p := &chess.Position{}
	if err := p.UnmarshalText([]byte(fen)); err != nil {
		t.Fatal(err)
	}
	return p
}

// TestResolve holds the resolver to what the PGN standard says of SAN (1994,
// section 8.2.3) and to what feeds write besides.
func TestResolve(t *testing.T) {
	const (
		twoKnights    = "4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1"   // PGN 8.2.3.4: Nce2 or Nge2
		pinnedKnight  = "4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1" // the pinned twin needs no disambiguation
		castling      = "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1"
		promotion     = "3r4/4P3/8/k7/8/8/8/4K3 w - - 0 1"
		blackPromotes = "4k3/8/8/8/8/8/5p2/K5N1 b - - 0 1"
		enPassant     = "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2"
	)
	for _, test := range []struct{ fen, text, want string }{
		{"", "e4", "e2e4"}, {"", "Nf3", "g1f3"}, {"", "Nf3!?", "g1f3"}, {"", "Nf3+", "g1f3"},
		{"", "Ng1-f3", "g1f3"}, {"", "e2-e4", "e2e4"}, {"", "e2e4", "e2e4"}, {"", "g1f3", "g1f3"}, {"", "♘f3", "g1f3"}, {"", "Pe4", "e2e4"},
		{"", "N1f3", "g1f3"}, {"", "Ngf3", "g1f3"},
		{twoKnights, "Nce2", "c3e2"}, {twoKnights, "Nge2", "g1e2"},
		{pinnedKnight, "Ne2", "g1e2"},
		{castling, "O-O", "e1g1"}, {castling, "O-O-O", "e1c1"}, {castling, "0-0", "e1g1"}, {castling, "0-0-0+", "e1c1"}, {castling, "o-o", "e1g1"}, {castling, "o-o-o", "e1c1"}, {castling, "e1g1", "e1g1"},
		{promotion, "e8=Q", "e7e8q"}, {promotion, "e8Q", "e7e8q"}, {promotion, "e8(N)", "e7e8n"}, {promotion, "e8/B", "e7e8b"}, {promotion, "exd8=R", "e7d8r"}, {promotion, "e7e8b", "e7e8b"},
		{blackPromotes, "fxg1=Q+", "f2g1q"}, // the standard's own long pawn move, 8.2.3
		{enPassant, "exd6", "e5d6"}, {enPassant, "exd6 e.p.", "e5d6"}, {enPassant, "exd6e.p.", "e5d6"},
	} {
		move, err := Resolve(position(t, test.fen), test.text)
		if err != nil || move.String() != test.want {
			t.Errorf("%s in %q = %v, %v, want %s", test.text, test.fen, move, err, test.want)
		}
	}
}

func TestResolveRefuses(t *testing.T) {
	const twoKnights = "4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1"
	for _, test := range []struct{ fen, text, want string }{
		{"", "e5", "not a legal move"}, {"", "Ke2", "not a legal move"}, {"", "Pg1-f3", "not a legal move"}, {"", "O-O", "not a legal move"},
		{twoKnights, "Ne2", "may mean two moves"},
		{"", "", "is not a move"}, {"", "N", "is not a move"}, {"", "Nf9", "is not a move"}, {"", "hello", "is not a move"}, {"", "--", "is not a move"},
	} {
		_, err := Resolve(position(t, test.fen), test.text)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q: err = %v, want %q", test.text, err, test.want)
		}
	}
}
