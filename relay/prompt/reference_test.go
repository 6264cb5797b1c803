package prompt

import "testing"

// TestSpoken: moves as they are read aloud; common practice, no source.
func TestSpoken(t *testing.T) {
	for san, want := range map[string]string{
		"e4": "e4", "exd5": "e takes d5", "Nf3": "knight f3", "Nbd7": "knight b d7", "R7h6+": "rook 7 h6 check", "Bxc6": "bishop takes c6",
		"Qa6xb7#": "queen a6 takes b7 mate", "O-O": "castles short", "O-O-O+": "castles long check", "e8=Q": "e8 makes a queen",
		"fxg1=N+": "f takes g1 makes a knight check", "": "",
	} {
		if got := English.Spoken(san); got != want {
			t.Errorf("%s is read %q, want %q", san, got, want)
		}
	}
}

func TestCount(t *testing.T) {
	for n, want := range map[int]string{
		1: "one", 20: "twenty", 21: "21", 99: "99", 100: "100", 214: "over 200", 250: "250", 999: "over 950", 1000: "1000",
		1999: "over 1500", 10_000: "10 thousand", 214_512: "over 214 thousand", 3_000_000: "3 million", 3_400_000: "over 3 million",
	} {
		if got := English.Count(n); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}

// TestNoveltyWords: every way to say it stays short enough to be said.
func TestNoveltyWords(t *testing.T) {
	for want, n := range map[string]New{
		"Move nine is new: of over 200 games here, none played h4.":         {Move: 9, SAN: "h4", Reached: 214},
		"A new position: the only game here went knight f3 on move nine.":   {Move: 9, SAN: "h4", Reached: 1, Went: "Nf3"},
		"A new position: the only game to get here ended before move nine.": {Move: 9, SAN: "h4", Reached: 1},
		"Move nine, rook takes h4, is new among the games counted.":         {Move: 9, SAN: "Rxh4", Reached: 214, Elsewhere: 3},
	} {
		if got := Novelty(English, n).Text; got != want {
			t.Errorf("%+v: %q, want %q", n, got, want)
		}
	}
}
