package facts

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

// TestSample prints boards with their facts, to be read by eye, when a number of
// positions is asked for: CLOCKTELL_SAMPLE=60 go test -run TestSample -v.
func TestSample(t *testing.T) {
	var n int
	var seed uint64
	fmt.Sscan(os.Getenv("CLOCKTELL_SAMPLE"), &n, &seed)
	if n == 0 {
		t.Skip("no sample asked for")
	}
	for _, p := range libraryPositions(t, n, seed) {
		fmt.Printf("\n%s\n%s", p.FEN(), board(&p))
		facts := Of(&p)
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
