package bitboard

import (
	"errors"
	"slices"
	"testing"

	notnil "github.com/notnil/chess"
)

// FuzzParseFEN reads any text. What is read comes back from its own FEN as it is, has
// the hash of a position from scratch, and every move from it leaves one that does.
func FuzzParseFEN(f *testing.F) {
	for _, test := range perftPositions {
		f.Add(test.fen)
	}
	f.Add("4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2")
	f.Add("8/8/8/8/k2pP2R/8/8/4K3 b - e3")
	f.Fuzz(func(t *testing.T, fen string) {
		p, err := ParseFEN(fen)
		if err != nil {
			if p != (Position{}) {
				t.Fatalf("%q is refused and not zero", fen)
			}
			return
		}
		if again, err := ParseFEN(p.FEN()); err != nil || again != p {
			t.Fatalf("%q comes back as %q, %v", fen, p.FEN(), err)
		}
		for _, m := range p.Moves(nil) {
			next := p
			next.Make(m)
			again, err := ParseFEN(next.FEN())
			if err != nil || again != next {
				t.Fatalf("%s from %q leaves %q, %v", m, p.FEN(), next.FEN(), err)
			}
			if !p.IsLegal(m) {
				t.Fatalf("%s from %q is generated and not legal", m, p.FEN())
			}
		}
	})
}

// fuzzStarts are positions in which moves are written in rarer ways.
var fuzzStarts = []string{
	StartFEN,
	"r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1",
	"3r1n2/4P3/8/k7/8/8/5p2/K5N1 w - - 0 1",
	"3r1n2/4P3/8/k7/8/8/5p2/K5N1 b - - 0 1",
	"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2",
	"6k1/8/8/Q3Q3/8/8/8/Q3K3 w - - 0 1",
	"4k3/8/8/8/4r3/8/3PPP2/3NKB2 w - - 0 1",
	"r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
	"8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1",
}

// walk plays one legal move for each byte.
func walk(p *Position, choices []byte) {
	const most = 60
	for _, choice := range choices[:min(len(choices), most)] {
		moves := p.Moves(nil)
		if len(moves) == 0 {
			return
		}
		p.Make(moves[int(choice)%len(moves)])
	}
}

// FuzzParseSAN reads any text in positions reached by any legal moves. A move that is
// read is legal, and its SAN means it again; so does the SAN of another legal move,
// which is the one that github.com/notnil/chess writes, and so do its coordinates.
func FuzzParseSAN(f *testing.F) {
	for i := range fuzzStarts {
		for _, text := range []string{"e4", "Nf3", "O-O", "0-0-0+", "exd6 e.p.", "bxc8=Q#", "e7e8b", "♘f3", "Qa1xb2"} {
			f.Add(uint8(i), []byte{3, 1, 4, 1, 5}, text)
		}
	}
	f.Fuzz(func(t *testing.T, start uint8, choices []byte, text string) {
		p := mustFEN(t, fuzzStarts[int(start)%len(fuzzStarts)])
		walk(&p, choices)
		legal := p.Moves(nil)
		m, err := p.ParseSAN(text)
		switch {
		case err == nil && (!slices.Contains(legal, m) || !p.IsLegal(m)):
			t.Fatalf("%q in %s is %s, which is not legal", text, p.FEN(), m)
		case err == nil:
			checkAgain(t, &p, m)
		case m != NoMove || !errors.Is(err, ErrNotMove) && !errors.Is(err, ErrIllegal) && !errors.Is(err, ErrAmbiguous):
			t.Fatalf("%q in %s: %s, %v", text, p.FEN(), m, err)
		}
		if len(legal) > 0 {
			checkAgain(t, &p, legal[len(text)%len(legal)])
		}
	})
}

func checkAgain(t *testing.T, p *Position, m Move) {
	t.Helper()
	san := p.SAN(m)
	for _, text := range []string{san, m.String()} {
		if again, err := p.ParseSAN(text); err != nil || again != m {
			t.Fatalf("%s in %s is %s, %v, want %s", text, p.FEN(), again, err, m)
		}
	}
	theirs := notnilAt(t, p.FEN())
	for _, move := range theirs.ValidMoves() {
		if want := (notnil.AlgebraicNotation{}).Encode(theirs, move); move.String() == m.String() && want != san {
			t.Fatalf("SAN of %s in %s is %s, the library has %s", m, p.FEN(), san, want)
		}
	}
}
