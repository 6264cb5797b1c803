package facts

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

// TestSample draws positions and holds the men that facts name to those on the board.
// To read boards and facts by eye: CLOCKTELL_SAMPLE="20 1" go test -run TestSample -v
// prints 20 positions drawn with the seed 1.
func TestSample(t *testing.T) {
	n, seed := 500, uint64(15)
	shown, err := fmt.Sscan(os.Getenv("CLOCKTELL_SAMPLE"), &n, &seed)
	if shown > 0 && err != nil {
		t.Fatal(err)
	}
	for _, p := range libraryPositions(t, n, seed) {
		facts := Of(&p)
		for _, f := range facts {
			for i, square := range f.Squares() {
				if f.Pieces()[i] != p.Piece(square) {
					t.Errorf("%s: %s stands on %s, not what %s says", p.FEN(), p.Piece(square), square, f)
				}
			}
		}
		if shown == 0 {
			continue
		}
		fmt.Printf("\n%s\n%s", p.FEN(), board(&p))
		for _, kind := range Kinds() {
			if found := lines(facts, kind); found != nil {
				fmt.Printf("  %s: %s\n", kind, strings.Join(found, "; "))
			}
		}
	}
}

func board(p *Position) string {
	var b strings.Builder
	for rank := 7; rank >= 0; rank-- {
		fmt.Fprintf(&b, "%d ", rank+1)
		for file := range 8 {
			letter := p.Piece(Square(rank*8 + file)).Letter()
			if letter == ' ' {
				letter = '.'
			}
			b.WriteByte(' ')
			b.WriteByte(letter)
		}
		b.WriteByte('\n')
	}
	b.WriteString("   a b c d e f g h\n")
	return b.String()
}
