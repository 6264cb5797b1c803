package remark

import (
	"fmt"
	"strings"
	"testing"

	notnil "github.com/notnil/chess"
)

func fields(p *Position, n int) string { return strings.Join(strings.Fields(p.FEN())[:n], " ") }

// census counts the men of both sides as the rules library has them.
func census(p *notnil.Position) (n [2]map[notnil.PieceType]int) {
	n = [2]map[notnil.PieceType]int{{}, {}}
	for _, piece := range p.Board().SquareMap() {
		n[piece.Color()-notnil.White][piece.Type()]++
	}
	return n
}

// more is how many more queens, rooks, minors and pawns a side has for each imbalance; the pawns
// are for those that have no Amount of them.
var more = map[Rule][3]int{
	PawnUp: {}, PieceUp: {0, 0, 1}, PieceForPawns: {0, 0, 1}, ExchangeUp: {0, 1, -1}, PiecesForRook: {0, -1, 2}, RookUp: {0, 1, 0},
	QueenUp: {1, 0, 0}, QueenForRook: {1, -1, 0}, QueenForRooks: {1, -2, 0}, QueenForRookAndPiece: {1, -1, -1}, QueenForPieces: {1, 0, -3},
	LevelAgain: {},
}

// standingWrong checks what can be counted on the board; ok is false if there is no check.
func standingWrong(t *testing.T, r *Remark, p *Position) (wrong string, ok bool) {
	view := notnilAt(t, p.FEN())
	men := census(view)
	us, them := men[r.Side], men[r.Side.Other()]
	diff := func(kinds ...notnil.PieceType) (n int) {
		for _, k := range kinds {
			n += us[k] - them[k]
		}
		return n
	}
	if want, known := more[r.Rule]; known {
		pawns := int(r.Amount)
		if r.Rule == PieceForPawns {
			pawns = -pawns
		}
		got := [4]int{diff(notnil.Queen), diff(notnil.Rook), diff(notnil.Knight, notnil.Bishop), diff(notnil.Pawn)}
		if got != [4]int{want[0], want[1], want[2], pawns} {
			return fmt.Sprintf("the balance is %v", got), true
		}
		return "", true
	}
	return fileWrong(r, view, us, them)
}

// fileWrong checks pawns and files.
func fileWrong(r *Remark, view *notnil.Position, us, them map[notnil.PieceType]int) (wrong string, ok bool) {
	on := r.Squares()
	switch r.Rule {
	case FileTaken, FileDoubled:
		for square, piece := range view.Board().SquareMap() {
			theirs := piece.Color() != notnil.White+notnil.Color(r.Side)
			heavy := piece.Type() == notnil.Rook || piece.Type() == notnil.Queen
			if int(square.File()) == on[0].File() && (piece.Type() == notnil.Pawn || theirs && heavy) {
				return fmt.Sprintf("%s stands on %s", piece, square), true
			}
		}
	case PasserFar, PassersFar, PasserNew, PasserProtected, PassersConnected, OutsideSquare, PasserBacked, PasserBlocked:
		pawns := on[:1]
		if r.Rule == PassersConnected || r.Rule == PassersFar {
			pawns = on
		}
		for _, pawn := range pawns {
			for square, piece := range view.Board().SquareMap() {
				side := int(square.File()) - pawn.File()
				ahead := int(square.Rank()) - pawn.Rank()
				if r.Side == 1 {
					ahead = -ahead
				}
				if piece.Type() == notnil.Pawn && piece.Color() != notnil.White+notnil.Color(r.Side) && side*side <= 1 && ahead > 0 {
					return fmt.Sprintf("the pawn on %s stops it", square), true
				}
			}
		}
	case TwoBishops:
		if us[notnil.Bishop] < 2 || us[notnil.Bishop]+us[notnil.Knight] != them[notnil.Bishop]+them[notnil.Knight] {
			return fmt.Sprintf("%v against %v", us, them), true
		}
	case QueensOff:
		if us[notnil.Queen]+them[notnil.Queen] > 0 {
			return "there is a queen", true
		}
	case EndingBegun:
		for _, kind := range []notnil.PieceType{notnil.Queen, notnil.Rook, notnil.Bishop, notnil.Knight} {
			if us[kind] != them[kind] {
				return fmt.Sprintf("%v against %v", us, them), true
			}
		}
		if got := 10*us[notnil.Pawn] + them[notnil.Pawn]; got != int(r.Amount) {
			return fmt.Sprintf("%d pawns", got), true
		}
	default:
		return "", false
	}
	return "", true
}
