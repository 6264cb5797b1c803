// Package notation finds the legal move that a text means, as feeds and people write moves.
package notation

import (
	"fmt"
	"strings"

	"github.com/notnil/chess"
)

// written is a move as a text gives it, taken apart.
type written struct {
	piece    chess.PieceType
	named    bool // the piece is written, not only meant
	fromFile int  // -1 when not given
	fromRank int
	to       chess.Square
	promo    chess.PieceType
	castle   chess.MoveTag // KingSideCastle, QueenSideCastle or 0
}

// Resolve finds the one legal move that text means. It takes what feeds write
// besides strict SAN: zeros in castling, no = before a promotion, long
// algebraic moves, more disambiguation than needed, and check marks that are
// missing or wrong.
func Resolve(pos *chess.Position, text string) (*chess.Move, error) {
	want, err := parseMove(text)
	if err != nil {
		return nil, err
	}
	var found *chess.Move
	for _, move := range pos.ValidMoves() {
		if !want.means(pos, move) {
			continue
		}
		if found != nil {
			return nil, fmt.Errorf("%s may mean two moves", text)
		}
		found = move
	}
	if found == nil {
		return nil, fmt.Errorf("%s is not a legal move", text)
	}
	return found, nil
}

func (w written) means(pos *chess.Position, move *chess.Move) bool {
	if w.castle != 0 {
		return move.HasTag(w.castle)
	}
	return move.S2() == w.to &&
		move.Promo() == w.promo &&
		(w.anyPiece() || pos.Board().Piece(move.S1()).Type() == w.piece) &&
		(w.fromFile < 0 || int(move.S1().File()) == w.fromFile) &&
		(w.fromRank < 0 || int(move.S1().Rank()) == w.fromRank)
}

// anyPiece reports a move that names both squares and no piece, as in UCI.
func (w written) anyPiece() bool {
	return !w.named && w.fromFile >= 0 && w.fromRank >= 0
}

func parseMove(text string) (written, error) {
	s := bare(text)
	switch s {
	case "O-O", "0-0", "o-o":
		return written{castle: chess.KingSideCastle}, nil
	case "O-O-O", "0-0-0", "o-o-o":
		return written{castle: chess.QueenSideCastle}, nil
	}
	w := written{piece: chess.Pawn, fromFile: -1, fromRank: -1}
	s = strings.Map(dropJoints, s)
	s = w.takePiece(s)
	s = w.takePromotion(s)
	if !w.takeSquares(s) {
		return w, fmt.Errorf("%q is not a move", text)
	}
	return w, nil
}

// bare removes what says nothing about which move it is.
func bare(text string) string {
	s := strings.TrimSuffix(text, "(=)")
	s = strings.TrimSuffix(strings.TrimSpace(s), "e.p.")
	return strings.TrimRight(strings.TrimSpace(s), "+#!?")
}

func dropJoints(r rune) rune {
	if strings.ContainsRune("x×:-=/()", r) {
		return -1
	}
	return r
}

// The letters of SAN and the chess figurines of Unicode.
var pieceLetters = map[rune]chess.PieceType{
	'K': chess.King, 'Q': chess.Queen, 'R': chess.Rook, 'B': chess.Bishop, 'N': chess.Knight, 'P': chess.Pawn,
	'♔': chess.King, '♕': chess.Queen, '♖': chess.Rook, '♗': chess.Bishop, '♘': chess.Knight, '♙': chess.Pawn,
	'♚': chess.King, '♛': chess.Queen, '♜': chess.Rook, '♝': chess.Bishop, '♞': chess.Knight, '♟': chess.Pawn,
}

func (w *written) takePiece(s string) string {
	for letter, piece := range pieceLetters {
		if rest, ok := strings.CutPrefix(s, string(letter)); ok {
			w.piece, w.named = piece, true
			return rest
		}
	}
	return s
}

func (w *written) takePromotion(s string) string {
	if w.piece != chess.Pawn {
		return s
	}
	for letter, piece := range pieceLetters {
		if rest, ok := strings.CutSuffix(s, string(letter)); ok && piece != chess.Pawn && piece != chess.King {
			w.promo = piece
			return rest
		}
	}
	// UCI and some long algebraic writers use a small letter behind the square.
	if n := len(s); n >= 3 && isRank(s[n-2]) && strings.ContainsRune("qrbn", rune(s[n-1])) {
		w.promo = pieceLetters[rune(s[n-1]-'a'+'A')]
		return s[:n-1]
	}
	return s
}

// takeSquares reads up to two of file, rank, and square; the last two signs are
// the square of arrival.
func (w *written) takeSquares(s string) bool {
	n := len(s)
	if n < 2 || n > 4 || !isFile(s[n-2]) || !isRank(s[n-1]) {
		return false
	}
	w.to = chess.NewSquare(chess.File(s[n-2]-'a'), chess.Rank(s[n-1]-'1'))
	for _, c := range []byte(s[:n-2]) {
		switch {
		case isFile(c) && w.fromFile < 0:
			w.fromFile = int(c - 'a')
		case isRank(c) && w.fromRank < 0:
			w.fromRank = int(c - '1')
		default:
			return false
		}
	}
	return true
}

func isFile(c byte) bool { return c >= 'a' && c <= 'h' }
func isRank(c byte) bool { return c >= '1' && c <= '8' }
