package facts

import (
	"fmt"
	"math/rand/v2"
	"testing"

	notnil "github.com/notnil/chess"

	"clocktell/relay/bitboard"
)

func TestDeadPosition(t *testing.T) {
	for _, test := range []struct {
		name, fen string
		want      bool
	}{
		{"kings", "4k3/8/8/8/8/8/8/4K3 w - - 0 1", true},
		{"a knight", "4k3/8/8/8/8/8/8/4KN2 b - - 0 1", true},
		{"a bishop", "4k1b1/8/8/8/8/8/8/4K3 w - - 0 1", true},
		{"bishops that all move on light squares", "4k1b1/8/8/8/8/8/B3B3/4KB2 w - - 0 1", true},
		{"one that moves on dark ones among them", "4k1b1/8/8/8/8/8/B2B4/4K3 w - - 0 1", false},
		{"bishops of two colours", "4kb2/8/8/8/8/8/8/4KB2 w - - 0 1", false},
		{"two knights", "4k3/8/8/8/8/8/8/3NKN2 w - - 0 1", false},
		{"knight against knight", "4k1n1/8/8/8/8/8/8/4KN2 w - - 0 1", false},
		{"a rook", "4k3/8/8/8/8/8/8/4K2R w - - 0 1", false},
		{"a pawn", "4k3/8/8/8/8/4P3/8/4K3 w - - 0 1", false},
		{"a wall", "8/8/4k3/p1p1p1p1/P1P1P1P1/8/4K3/8 w - - 0 1", true},
		{"a wall that ends before the edge", "8/8/4k3/p1p1p3/P1P1P3/8/4K3/8 w - - 0 1", false},
		{"a wall with a pawn that is free", "8/8/4k3/p1p1p1p1/P1P1P1P1/8/4K2P/8 w - - 0 1", false},
		{"a wall that a pawn can take from", "8/8/4k3/p1ppp1p1/P1P1P1P1/3P4/4K3/8 w - - 0 1", false},
		{"a wall, and the king on the wrong side of it", "8/8/8/p1p1p1p1/P1P1P1P1/8/4K1k1/8 w - - 0 1", false},
		{"a wall with a knight behind it", "8/8/4k3/p1p1p1p1/P1P1P1P1/8/4K1N1/8 w - - 0 1", false},
	} {
		p := position(t, test.fen)
		if got := Of(&p).Has(DeadPosition, bitboard.White); got != test.want {
			t.Errorf("%s: dead is %v", test.name, got)
		}
	}
}

// TestWallsAreDead sets up walls at random and walks through every position that can be
// reached from those that are called dead: no move captures, none mates.
func TestWallsAreDead(t *testing.T) {
	want := 6
	if full() {
		want = 60
	}
	draw := rand.New(rand.NewPCG(11, 0))
	dead, alive := 0, 0
	for dead < want {
		p, ok := randomWall(draw)
		if !ok || p.InCheck() {
			continue
		}
		if !Of(&p).Has(DeadPosition, bitboard.White) {
			alive++
			continue
		}
		dead++
		walk(t, p.FEN())
	}
	t.Logf("%d walls walked through, %d others", dead, alive)
	if alive == 0 {
		t.Error("all walls are dead: the test of what is not one is missing")
	}
}

// randomWall puts pawns face to face on most files, at heights that differ little.
func randomWall(draw *rand.Rand) (Position, bool) {
	var squares [64]byte
	height := 2 + draw.IntN(3)
	for file := range 8 {
		if draw.IntN(5) == 0 {
			continue
		}
		rank := min(5, max(1, height+draw.IntN(3)-1))
		squares[rank*8+file], squares[rank*8+8+file] = 'P', 'p'
	}
	for _, king := range []byte{'K', 'k'} {
		s := draw.IntN(64)
		if squares[s] != 0 {
			return Position{}, false
		}
		squares[s] = king
	}
	p, err := bitboard.ParseFEN(placement(&squares) + " w - - 0 1")
	return p, err == nil
}

func placement(squares *[64]byte) string {
	var text []byte
	for rank := 7; rank >= 0; rank-- {
		for file := range 8 {
			if c := squares[rank*8+file]; c != 0 {
				text = append(text, c)
			} else {
				text = append(text, '1')
			}
		}
		if rank > 0 {
			text = append(text, '/')
		}
	}
	return string(text)
}

// walk visits all positions reached from one.
func walk(t *testing.T, fen string) {
	t.Helper()
	seen := make(map[string]bool)
	for left := []*notnil.Position{notnilAt(t, fen)}; len(left) > 0; {
		p := left[len(left)-1]
		left = left[:len(left)-1]
		key := fmt.Sprint(p.Board(), p.Turn())
		if seen[key] {
			continue
		}
		seen[key] = true
		if p.Status() == notnil.Checkmate {
			t.Fatalf("%s: mate is reached: %s", fen, p)
		}
		for _, m := range p.ValidMoves() {
			if m.HasTag(notnil.Capture) || p.Board().Piece(m.S1()).Type() == notnil.Pawn {
				t.Fatalf("%s: %s in %s", fen, m, p)
			}
			left = append(left, p.Update(m))
		}
	}
}

// TestMaterialWithoutMate sets up a single knight or bishop with the kings on every
// square (the bare king on the ten that differ) and finds no mate; a rook mates so.
func TestMaterialWithoutMate(t *testing.T) {
	for man, want := range map[byte]bool{'N': false, 'B': false, 'R': true} {
		checks, mates := setUps(man)
		t.Logf("%c: %d checks, %d mates", man, checks, mates)
		if (mates > 0) != want || checks == 0 {
			t.Errorf("%c: %d mates in %d positions with check", man, mates, checks)
		}
	}
	for _, fen := range []string{
		"k7/n1K5/1N6/8/8/8/8/8 b - - 0 1", "kb6/8/1KB5/8/8/8/8/8 b - - 0 1", "k7/2N5/NK6/8/8/8/8/8 b - - 0 1",
	} {
		p := position(t, fen)
		if notnilAt(t, fen).Status() != notnil.Checkmate || Of(&p).Has(DeadPosition, bitboard.White) {
			t.Errorf("%s is no mate, or dead", fen)
		}
	}
}

// corner is one eighth of the board: any other square is like one of these when the board
// is turned.
var corner = []Square{0, 1, 2, 3, 9, 10, 11, 18, 19, 27}

// setUps counts the positions in which that man checks, and the mates among them.
func setUps(man byte) (checks, mates int) {
	for _, king := range corner {
		for rest := range 64 * 64 {
			var squares [64]byte
			squares[king], squares[rest&63] = 'k', 'K'
			if squares[rest>>6] != 0 {
				continue
			}
			squares[rest>>6] = man
			p, err := bitboard.ParseFEN(placement(&squares) + " b - - 0 1")
			if err != nil || !p.InCheck() {
				continue
			}
			checks++
			view := &notnil.Position{}
			if view.UnmarshalText([]byte(p.FEN())) == nil && view.Status() == notnil.Checkmate {
				mates++
			}
		}
	}
	return checks, mates
}
