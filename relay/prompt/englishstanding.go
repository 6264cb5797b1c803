package prompt

import (
	"fmt"

	"clocktell/relay/bitboard"
	"clocktell/relay/remark"
)

func (english) piece(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.KnightOutpost:
		return fmt.Sprintf("The knight on %s has an outpost.", on[0]),
			fmt.Sprintf("guarded by %s; no pawn that goes straight on can ever attack it", englishMenAt(r, 1))
	case remark.FileTaken:
		return fmt.Sprintf("%s holds the only open file, the %s.", name, englishFile(on[0])), manAt(r, 0) + "; neither rook nor queen against it"
	case remark.FileDoubled:
		return fmt.Sprintf("%s has doubled rooks on the open %s.", name, englishFile(on[0])), englishMenAt(r, 0)
	case remark.SeventhRank:
		return fmt.Sprintf("%s has a rook on the seventh rank.", name), manAt(r, 0) + "; it does not hang"
	case remark.SeventhRankDoubled:
		return fmt.Sprintf("%s has two rooks on the seventh rank.", name), englishMenAt(r, 0)
	case remark.Hole:
		return fmt.Sprintf("%s has a hole on %s, and a knight is looking at it.", name, on[0]),
			fmt.Sprintf("no pawn that goes straight on can guard %s again; %s would support %s there", on[0], manAt(r, 1), manAt(r, 2))
	case remark.AtHome:
		return fmt.Sprintf("%s still has %s at home.", name, englishTargets(r, 0)),
			englishMenAt(r, 0) + " on their first squares, none of the other side's"
	case remark.LoosePieces:
		return fmt.Sprintf("%s has two loose pieces: %s and %s.", name, manAt(r, 0), manAt(r, 1)), "no man of its own guards either"
	case remark.BadBishop:
		return fmt.Sprintf("%s is bad: its own pawns are fixed on its colour.", capital(theMan(r, 0))), englishMenAt(r, 1) + ", each with an enemy pawn ahead"
	case remark.ShortOfMoves:
		return fmt.Sprintf("%s is cramped: the pieces have few safe moves.", name), fmt.Sprintf("%d safe moves when it was first seen, no more than half of the other side's", r.Amount)
	}
	return "", ""
}

func (english) passer(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.PasserFar:
		if r.Amount == 1 {
			return fmt.Sprintf("%s's pawn on %s is one step from promoting.", name, on[0]), manAt(r, 0) + ": passed, and it does not hang"
		}
		return fmt.Sprintf("%s's passed pawn has come to %s.", name, on[0]), manAt(r, 0) + ": two steps to go, and it does not hang"
	case remark.PassersConnected:
		return fmt.Sprintf("%s has connected passed pawns, on %s and %s.", name, on[0], on[1]), englishMenAt(r, 0)
	case remark.PassersFar:
		return fmt.Sprintf("%s has two far passed pawns, on %s and %s.", name, on[0], on[1]), englishMenAt(r, 0)
	case remark.PasserProtected:
		return fmt.Sprintf("%s has a protected passed pawn on %s.", name, on[0]), manAt(r, 1) + " guards it"
	case remark.PasserNew:
		return fmt.Sprintf("%s has a passed pawn on %s.", name, on[0]), "no pawn of the other side ahead of it or beside its way"
	case remark.PasserBlocked:
		return fmt.Sprintf("%s blocks the passed pawn on %s.", capital(theMan(r, 1)), on[0]), manAt(r, 1) + " ahead of " + manAt(r, 0)
	case remark.PasserBacked:
		return fmt.Sprintf("The rook on %s stands behind its passed pawn on %s.", on[1], on[0]), "nothing between them"
	case remark.OutsideSquare:
		return fmt.Sprintf("The king on %s is outside the square of the pawn on %s.", on[1], on[0]), "the pawn's way is free, and the king cannot catch it"
	}
	return "", ""
}

func (english) pawn(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.IsolatedQueensPawn:
		return fmt.Sprintf("%s has an isolated queen's pawn.", name), manAt(r, 0) + ": no pawn of its own beside it, none of the other's on the file"
	case remark.DoubledIsolated:
		return fmt.Sprintf("%s's pawns on the %s are doubled and isolated.", name, englishFile(on[0])), englishMenAt(r, 0)
	case remark.BackwardAttacked:
		return fmt.Sprintf("The backward pawn on %s is under fire on the half-open file.", on[0]), manAt(r, 1) + " attacks it; it cannot go on safely"
	case remark.IsolatedAttacked:
		return fmt.Sprintf("The isolated pawn on %s is under fire on the half-open file.", on[0]), manAt(r, 1) + " attacks it; no pawn can guard it"
	case remark.CentreClosed:
		return "The centre is closed.", englishMenAt(r, 0) + " block each other"
	case remark.WingMajority:
		return fmt.Sprintf("%s has the pawn majority on the %s.", name, r.Wing), fmt.Sprintf("%d more there; the other side has it on the other wing", r.Amount)
	}
	return "", ""
}

// count is "a pawn", "two pawns".
func pawnCount(n int) string {
	if n == 1 {
		return "a pawn"
	}
	return English.Number(n) + " pawns"
}

// up is what a side has more: "a rook up", "a rook and a pawn up", "a rook up for two pawns".
func up(what string, pawns int) string {
	switch {
	case pawns > 0:
		return what + " and " + pawnCount(pawns) + " up"
	case pawns < 0:
		return what + " up for " + pawnCount(-pawns)
	}
	return what + " up"
}

// against is what a side has for something else: "two pieces for rook and pawn".
func against(what, other string, pawns int) string {
	switch {
	case pawns > 0:
		return what + " and " + pawnCount(pawns) + " for " + other
	case pawns < 0:
		return what + " for " + other + " and " + pawnCount(-pawns)
	}
	return what + " for " + other
}

// englishUp and englishFor are the words of imbalances.
var (
	englishUp = map[remark.Rule]string{
		remark.PieceUp: "a piece", remark.ExchangeUp: "the exchange", remark.RookUp: "a rook", remark.QueenUp: "a queen",
	}
	englishFor = map[remark.Rule][2]string{
		remark.PiecesForRook: {"two pieces", "a rook"}, remark.QueenForRook: {"a queen", "a rook"},
		remark.QueenForRooks: {"a queen", "two rooks"}, remark.QueenForRookAndPiece: {"a queen", "rook and piece"},
		remark.QueenForPieces: {"a queen", "three pieces"},
	}
)

const settled = "after the exchanges, with nothing hanging"

func (english) balance(r *remark.Remark, name string) (text, evidence string) {
	pawns := int(r.Amount)
	if what := englishUp[r.Rule]; what != "" {
		return fmt.Sprintf("%s is %s.", name, up(what, pawns)), settled
	}
	if what, ok := englishFor[r.Rule]; ok {
		return fmt.Sprintf("%s has %s.", name, against(what[0], what[1], pawns)), settled
	}
	switch r.Rule {
	case remark.PawnUp:
		return fmt.Sprintf("%s is %s up.", name, pawnCount(pawns)), settled
	case remark.PieceForPawns:
		return fmt.Sprintf("%s has a piece for %s.", name, pawnCount(pawns)), settled
	case remark.LevelAgain:
		return "Material is level again.", settled
	case remark.TwoBishops:
		return fmt.Sprintf("%s has the bishop pair.", name), "two bishops, and the other side has not"
	case remark.OppositeBishops:
		if pawns == 1 {
			return "This is an ending with opposite-coloured bishops.", "bishops and pawns alone, the bishops on different colours"
		}
		return "The bishops are of opposite colours now.", "one bishop each, on different colours, and no knights"
	case remark.EndingBegun:
		kind := map[bitboard.PieceType]string{bitboard.Knight: "knight", bitboard.Bishop: "bishop", bitboard.Rook: "rook", bitboard.Queen: "queen"}[r.Kind]
		if kind == "" {
			kind = "pawn"
		}
		return fmt.Sprintf("It is a %s ending now, %s.", kind, englishPawns(r)), fmt.Sprintf("White has %d pawns, Black %d", r.Amount/10, r.Amount%10)
	case remark.QueensGone:
		return fmt.Sprintf("Queens off, an ending now: %s.", piecesCompared(r, englishPieces, " and ", " against ", " each")), "no queens, at most three pieces on each side"
	case remark.QueensOff:
		return "The queens are off the board early.", "both are gone before move twenty"
	}
	return "", ""
}

// englishPawns compares White's pawns with Black's.
func englishPawns(r *remark.Remark) string {
	more, fewer := int(max(r.Amount/10, r.Amount%10)), int(min(r.Amount/10, r.Amount%10))
	switch {
	case more == fewer:
		return "with equal pawns"
	case fewer == 0:
		return pawnCount(more) + " against none"
	}
	return English.Number(more) + " pawns against " + English.Number(fewer)
}

func (english) draw(r *remark.Remark, name string) (text, evidence string) {
	switch r.Rule {
	case remark.PositionTwice:
		return "The same position again: one more time and a draw can be claimed.", "it stands for the second time (Laws 9.2)"
	case remark.PositionThrice:
		return "A draw can be claimed: this position has come up three times.", fmt.Sprintf("it stands for the time number %d (Laws 9.2, drawn with the fifth, 9.6)", r.Amount)
	case remark.FiftyNear:
		return fmt.Sprintf("%s moves without capture or pawn move: at fifty a draw can be claimed.", capital(English.Number(int(r.Amount)/2))), "Laws 9.3"
	case remark.FiftyReached:
		return "Fifty moves without capture or pawn move: a draw can be claimed.", "Laws 9.3, drawn with seventy-five, 9.6"
	case remark.DeadDraw:
		return "Nobody can give mate any more: the game is drawn.", "dead position, Laws 5.2.2"
	case remark.LoneKing:
		return fmt.Sprintf("%s has only the king left and cannot win any more.", name), "if the other side oversteps the time it is a draw (Laws 6.9)"
	}
	return "", ""
}
