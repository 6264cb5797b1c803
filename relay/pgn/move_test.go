package pgn

import "testing"

// Words that have the shape of a move. SAN examples are those the standard gives
// in 8.2.3 (Nce2, Nge2, Ne2; the longest: Qa6xb7#, fxg1=Q+); the other forms are
// common practice, no source.
func TestMoveWords(t *testing.T) {
	moves := []string{
		"e4", "Nf3", "exd5", "Nce2", "N1d2", "Qa6xb7#", "fxg1=Q+", "O-O", "O-O-O+", "Nge2", "Ne2",
		"e2e4", "e7e8q", "e2-e4", "Ng1-f3", "Ng1xf3", "0-0", "0-0-0#", "o-o", "Pe4", "e8Q", "e8/Q", "e8(Q)",
		"e4++", "Qxf7++", "--", "Z0", "♘f3", "♞xd4", "♟e5", "e8=♕", "bxc3", "Bxc3", "N:e5", "ed5", "Nh8#",
	}
	for _, w := range moves {
		if !isMove(w) {
			t.Errorf("isMove(%q) = false, want true", w)
		}
	}
	words := []string{
		"", "e", "e9", "i4", "N", "Nf", "Nf9", "nf3", "hello", "e4e", "O", "O-", "O-O-", "0-1", "1-0", "xd5", "e8=",
		"Nf3=Q", "e8=P", "♕", "-", "---", "e4x", "exd", "N-", "e8(", "Z1", "+", "#", "Nb1d2d4", "e4 e5",
	}
	for _, w := range words {
		if isMove(w) {
			t.Errorf("isMove(%q) = true, want false", w)
		}
	}
}

// A cut word is the beginning of a move when something can be put behind it.
func TestCutWords(t *testing.T) {
	for _, whole := range []string{"Nf3", "Ngxe5", "e2-e4", "exd5", "O-O-O", "fxg1=Q", "R1a3"} {
		for n := 1; n < len(whole); n++ {
			if w := whole[:n]; !isMove(w) && !canBecomeMove(w) {
				t.Errorf("%q, the beginning of %q, is taken for nothing", w, whole)
			}
		}
	}
	for _, w := range []string{"hello", "x", "Nf3e5d4", "Resigns"} {
		if canBecomeMove(w) {
			t.Errorf("canBecomeMove(%q) = true, want false", w)
		}
	}
}
