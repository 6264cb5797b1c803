package notation

import (
	"testing"

	"clocktell/relay/bitboard"
)

// FuzzTwoCores reads any text in positions reached by any legal moves with both chess
// cores: the live path's resolver, which lets the rules library judge, and that of
// package bitboard. They find the same move or none.
func FuzzTwoCores(f *testing.F) {
	for i := range fuzzStarts {
		for _, text := range []string{"e4", "Nf3", "O-O", "0-0-0+", "Kg1", "exd6 e.p.", "d6", "e8(Q)", "e7e8b", "♘f3", "N×f3", "Q5c3", "Qa1", "Nf3 (=)"} {
			f.Add(uint8(i), []byte{3, 1, 4}, text)
		}
	}
	f.Fuzz(func(t *testing.T, start uint8, choices []byte, text string) {
		pos := walk(position(t, fuzzStarts[int(start)%len(fuzzStarts)]), choices)
		other, err := bitboard.ParseFEN(pos.String())
		if err != nil {
			return // a king could be taken; one of the starts is such, since a feed may show it
		}
		want := "0000"
		if move, err := Resolve(pos, text); err == nil {
			want = move.String()
		}
		if got, err := other.ParseSAN(text); got.String() != want {
			t.Fatalf("%q in %s is %s (%v), the live path has %s", text, pos, got, err, want)
		}
	})
}
