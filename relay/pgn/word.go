package pgn

import "strings"

// Results of a game as the text may end it (PGN 8.2.6).
const (
	whiteWins = "1-0"
	blackWins = "0-1"
	drawn     = "1/2-1/2"
	unknown   = "*"
)

// resultOf returns the result a word stands for, or "". Besides the standard's
// forms it knows the typographer's half and the lone half.
func resultOf(word string) string {
	switch word {
	case whiteWins, blackWins:
		return word
	case drawn, "1/2", "½-½", "½", "\xBD-\xBD", "\xBD":
		return drawn
	}
	return ""
}

// isMove reports whether a word has the shape of a move: SAN (PGN 8.2.3), long
// algebraic, coordinates, figurines, castling with letters or zeros, null move.
func isMove(w string) bool {
	if len(w) == 2 { // the commonest by far: e4
		return isFile(w[0]) && isRank(w[1]) || w == "--" || w == "Z0"
	}
	if len(w) == 3 && isPiece(w[0]) && isFile(w[1]) && isRank(w[2]) { // Nf3
		return true
	}
	w = trimCheck(w)
	if isCastling(w) {
		return true
	}
	rest, pawn := cutPiece(w)
	rest, ok := cutSquares(rest, pawn)
	return ok && (rest == "" || pawn && isPromotion(rest))
}

// isGarbledMove reports whether a word that is no move was meant for one: short,
// and with a digit, which no stray word of a language has.
func isGarbledMove(w string) bool {
	const longest = 7 // of a move in SAN (PGN 8.2.3)
	return len(w) >= 2 && len(trimCheck(w)) <= longest && strings.ContainsAny(w, "0123456789")
}

func isFile(c byte) bool { return c >= 'a' && c <= 'h' }

func isRank(c byte) bool { return c >= '1' && c <= '8' }

func isPiece(c byte) bool {
	switch c {
	case 'K', 'Q', 'R', 'B', 'N':
		return true
	}
	return false
}

// trimCheck removes a mark of check, double check or mate.
func trimCheck(w string) string {
	switch {
	case strings.HasSuffix(w, "++"):
		return w[:len(w)-2]
	case strings.HasSuffix(w, "+"), strings.HasSuffix(w, "#"):
		return w[:len(w)-1]
	}
	return w
}

func isCastling(w string) bool {
	if len(w) != 3 && len(w) != 5 {
		return false
	}
	for i := 0; i < len(w); i++ {
		if i%2 == 1 && w[i] != '-' {
			return false
		}
		if i%2 == 0 && w[i] != 'O' && w[i] != '0' && w[i] != 'o' {
			return false
		}
	}
	return true
}

// figurine returns the length of a chess figure U+2654 to U+265F at the start
// of w, or 0.
func figurine(w string) int {
	if len(w) >= 3 && w[0] == 0xE2 && w[1] == 0x99 && w[2] >= 0x94 && w[2] <= 0x9F {
		return 3
	}
	return 0
}

// isPawnFigure reports the white and the black pawn, U+2659 and U+265F.
func isPawnFigure(w string) bool { return w[2] == 0x99 || w[2] == 0x9F }

// cutPiece removes the piece in front; pawn is true when a pawn moves.
func cutPiece(w string) (rest string, pawn bool) {
	if n := figurine(w); n > 0 {
		return w[n:], isPawnFigure(w)
	}
	if w != "" && isPiece(w[0]) {
		return w[1:], false
	}
	if w != "" && w[0] == 'P' {
		return w[1:], true
	}
	return w, true
}

// cutSquares removes origin, capture or dash, and target; ok is false when no
// target square stands there. A capture needs something that captures.
func cutSquares(w string, pawn bool) (rest string, ok bool) {
	i := 0
	file := i < len(w) && isFile(w[i])
	if file {
		i++
	}
	rank := i < len(w) && isRank(w[i])
	if rank {
		i++
	}
	square := w[i:]
	if i < len(w) && (w[i] == 'x' || w[i] == ':' || w[i] == '-') && (i > 0 || !pawn) {
		square = w[i+1:]
	}
	if len(square) >= 2 && isFile(square[0]) && isRank(square[1]) {
		return square[2:], true
	}
	return w[i:], file && rank
}

// isPromotion reports what may stand behind a pawn's target: =Q, Q, /Q, (Q), q.
func isPromotion(w string) bool {
	if len(w) >= 3 && w[0] == '(' && w[len(w)-1] == ')' {
		w = w[1 : len(w)-1]
	} else if w[0] == '=' || w[0] == '/' {
		w = w[1:]
	}
	if n := figurine(w); n > 0 {
		return len(w) == n && !isPawnFigure(w)
	}
	return len(w) == 1 && strings.IndexByte("QRBNqrbnK", w[0]) >= 0
}

// canBecomeMove reports whether a cut word may be the beginning of a move.
func canBecomeMove(w string) bool {
	for _, end := range [...]string{"4", "e4", "O", "-O", "Q"} {
		if isMove(w + end) {
			return true
		}
	}
	return false
}
