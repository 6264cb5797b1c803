package prompt

import (
	"strings"

	"clocktell/relay/bitboard"
	"clocktell/relay/remark"
)

// pieceWords are the words for one, two and three pieces of a kind, rook first.
type pieceWords [3][3]string

var (
	englishPieces = pieceWords{
		{"rook", "two rooks", "three rooks"}, {"bishop", "two bishops", "three bishops"}, {"knight", "two knights", "three knights"},
	}
	germanPieces = pieceWords{
		{"Turm", "zwei Türme", "drei Türme"}, {"Läufer", "zwei Läufer", "drei Läufer"}, {"Springer", "zwei Springer", "drei Springer"},
	}
)

// of lists the pieces of a side: "rook and two knights".
func (words pieceWords) of(r *remark.Remark, c remark.Colour, and string) string {
	var list []string
	for i, t := range []bitboard.PieceType{bitboard.Rook, bitboard.Bishop, bitboard.Knight} {
		if n := r.Pieces(c, t); n > 0 {
			list = append(list, words[i][n-1])
		}
	}
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + and + list[last]
}

// piecesCompared names the pieces of both sides of a remark of QueensGone, White's first.
func piecesCompared(r *remark.Remark, words pieceWords, and, against, each string) string {
	white, black := words.of(r, bitboard.White, and), words.of(r, bitboard.Black, and)
	if white == black {
		return white + each
	}
	return white + against + black
}
