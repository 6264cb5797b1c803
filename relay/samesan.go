package relay

import "strings"

// sameSAN reports whether two words mean the same move of one position, as far as
// words alone can tell: with or without signs of check, capture or promotion, with
// more or less of the square the piece came from, castling with letters or zeros.
func sameSAN(a, b string) bool {
	if a == b {
		return true
	}
	x, y := plainSAN(a), plainSAN(b)
	if x == y {
		return true
	}
	xp, xf, xt := sanParts(x)
	yp, yf, yt := sanParts(y)
	return xt != "" && xp == yp && xt == yt && fits(xf, yf)
}

var sanSigns = strings.NewReplacer("+", "", "#", "", "x", "", ":", "", "=", "", "-", "", "!", "", "?", "", "(", "", ")", "", "0", "O", "o", "O",
	"♔", "K", "♕", "Q", "♖", "R", "♗", "B", "♘", "N", "♙", "", "♚", "K", "♛", "Q", "♜", "R", "♝", "B", "♞", "N", "♟", "")

// plainSAN leaves out what does not tell moves apart.
func plainSAN(word string) string { return sanSigns.Replace(strings.TrimSuffix(word, "e.p.")) }

// sanParts splits a plain word into piece, what it says of the square the piece
// came from, and the rest: where it goes, and what it becomes.
func sanParts(word string) (piece, from, to string) {
	if word != "" && strings.IndexByte("KQRBN", word[0]) >= 0 {
		piece, word = word[:1], word[1:]
	}
	promoted := ""
	if n := len(word); n > 2 && strings.IndexByte("QRBN", word[n-1]) >= 0 {
		promoted, word = word[n-1:], word[:n-1]
	}
	n := len(word)
	if n < 2 || word[n-1] < '1' || word[n-1] > '8' || word[n-2] < 'a' || word[n-2] > 'h' {
		return "", "", ""
	}
	from = word[:n-2]
	if piece == "" && from == "" {
		from = word[n-2 : n-1] // a pawn that says no more came down its file
	}
	return piece, from, word[n-2:] + promoted
}

// fits reports whether two accounts of one square may both be true: "g", "1" and
// "g1" fit each other, "g" and "f" do not.
func fits(a, b string) bool {
	for i := range len(a) {
		for j := range len(b) {
			if isLetter(a[i]) == isLetter(b[j]) && a[i] != b[j] {
				return false
			}
		}
	}
	return true
}

func isLetter(c byte) bool { return c >= 'a' }
