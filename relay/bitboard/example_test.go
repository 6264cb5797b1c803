package bitboard_test

import (
	"fmt"

	"clocktell/relay/bitboard"
)

// A game is replayed word by word; each position has its hash, and what stands on the
// board can be asked.
func Example() {
	p := bitboard.Start()
	for _, word := range []string{"e4", "e5", "Nf3", "Nc6", "Bb5", "Nf6"} {
		m, err := p.ParseSAN(word)
		if err != nil {
			fmt.Println(word, err)
			return
		}
		p.Make(m)
	}
	fmt.Printf("%s\n%016x\n", p.FEN(), p.Hash())
	fmt.Println("on e5:", p.Piece(bitboard.E5), "attacked from", p.Attackers(bitboard.E5))
	m, _ := p.ParseSAN("Nxe5")
	fmt.Println(p.SAN(m), "wins", p.Exchange(m), "centipawns")

	before := p // a copy is all that is needed to come back
	p.Make(m)
	p = before
	_, err := p.ParseSAN("Nxe4")
	fmt.Println("Nxe4:", err)
	// Output:
	// r1bqkb1r/pppp1ppp/2n2n2/1B2p3/4P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 4 4
	// bc3793da29a06002
	// on e5: p attacked from f3 c6
	// Nxe5 wins -200 centipawns
	// Nxe4: not a legal move
}
