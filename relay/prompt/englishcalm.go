package prompt

import (
	"fmt"

	"clocktell/relay/bitboard"
	"clocktell/relay/remark"
)

// calm is what is said when little happens.
func (l english) calm(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.NothingTaken:
		return "Nothing has been captured yet.", "all thirty-two men are on the board"
	case remark.PiecesAllOn:
		return "All the pieces are still on the board.", "only pawns have been captured so far"
	case remark.NobodyCastled:
		return "Neither side has castled yet.", "both kings stand where they began, and both sides still may"
	case remark.CentreEmpty:
		return "The centre is open: no pawn is left on the d- and e-files.", "neither of White nor of Black"
	case remark.PawnsAlike:
		return "The pawn structure is symmetrical.", "both sides have as many pawns on each file"
	case remark.PawnsTouch:
		return fmt.Sprintf("The pawns on %s and %s can take each other, and neither does.", on[0], on[1]), "for two moves or more; no other pawns can"
	case remark.PawnsLocked:
		return fmt.Sprintf("The position is closed: %s pairs of pawns block each other.", l.Number(int(r.Amount))), fmt.Sprintf("%d pawns of each side have one of the other's ahead", r.Amount)
	case remark.FileFree:
		return fmt.Sprintf("The %c-file is open, and nobody has taken it yet.", 'a'+rune(r.Amount)), "it is the only open one; all four rooks stand elsewhere"
	case remark.SquareFought:
		return fmt.Sprintf("Both sides fight for %s: %s.", on[0], l.fight(r)), fmt.Sprintf("White has %d men aimed at it, Black %d", r.Amount/10, r.Amount%10)
	case remark.NoCaptureLong:
		return "Nothing has been captured for ten moves.", "twenty half-moves in a row without a capture"
	case remark.QueensFace:
		return "The queens face each other, and neither side trades.", fmt.Sprintf("on %s and %s, for a move or more", on[0], on[1])
	case remark.BishopsAlike:
		return "Each side has one bishop, and they run on the same colour.", "no knights, and the bishops can meet"
	}
	if text, evidence = l.left(r); text != "" {
		return text, evidence
	}
	return l.calmOf(r, name)
}

// fight compares numbers of men, the greater first.
func (l english) fight(r *remark.Remark) string {
	white, black := int(r.Amount/10), int(r.Amount%10)
	return fmt.Sprintf("%s men against %s", l.Number(max(white, black)), l.Number(min(white, black)))
}

// left is what is left on the board, and what has not happened yet.
func (l english) left(r *remark.Remark) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.NoOpenFile:
		return "There is no open file yet.", "every file has a pawn on it, and all four rooks are on the board"
	case remark.OnePieceOff:
		return "Each side has lost just one piece so far.", "six of seven are left on each side, pawns aside"
	case remark.PawnsAllOn:
		return "All sixteen pawns are still on the board.", "only pieces have been captured so far"
	case remark.NoPasser:
		return "There is no passed pawn yet.", "every pawn has one of the other side ahead of it or beside its way"
	case remark.NoCheckYet:
		return "There has been no check in this game yet.", "none up to this move"
	case remark.MinorsGone:
		return "All the knights and bishops are gone.", "rooks, queens and pawns are left"
	case remark.RooksGone:
		return "All the rooks are gone, and the queens are still on.", "no rook on either side"
	case remark.OneWing:
		return "All the pawns are on one wing.", "none is left on the other four files"
	case remark.Opposition:
		side := "Black"
		if r.Amount == 1 {
			side = "White"
		}
		return fmt.Sprintf("The kings face each other, and %s has the opposition.", side), englishMenAt(r, 0) + ", the other side is on the move"
	case remark.LastPawn:
		return fmt.Sprintf("Only one pawn is left on the board, on %s.", on[0]), manAt(r, 0) + ", and pieces on both sides"
	case remark.PawnsLeft:
		return fmt.Sprintf("That leaves %s.", l.pawnsCompared(r)), fmt.Sprintf("White has %d pawns, Black %d", r.Amount/10, r.Amount%10)
	case remark.PassersBoth:
		return fmt.Sprintf("Both sides have a passed pawn, on %s and %s.", on[0], on[1]), englishMenAt(r, 0)
	}
	return "", ""
}

// pawnsCompared compares White's pawns with Black's where some are left.
func (l english) pawnsCompared(r *remark.Remark) string {
	more, fewer := int(max(r.Amount/10, r.Amount%10)), int(min(r.Amount/10, r.Amount%10))
	switch {
	case more == fewer && more == 1:
		return "one pawn each"
	case more == fewer:
		return l.Number(more) + " pawns each"
	case fewer == 0:
		return pawnCount(more) + " against none"
	}
	return pawnCount(more) + " against " + l.Number(fewer)
}

// times is "twice", "four times".
func (l english) times(n int) string {
	if n == 2 {
		return "twice"
	}
	return l.Number(n) + " times"
}

// calmOf is what is said of one side when little happens.
func (l english) calmOf(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	own, other := int(r.Amount/10), int(r.Amount%10)
	switch r.Rule {
	case remark.MoreSpace:
		against := l.Number(other)
		if other == 0 {
			against = "none"
		}
		return fmt.Sprintf("%s has more space: %s pawns across the middle against %s.", name, l.Number(own), against), "on the fifth rank or further"
	case remark.Unmoved:
		return fmt.Sprintf("%s's %s on %s has not moved yet.", name, englishMan(r, 0), on[0]), "all knights and bishops of the other side have"
	case remark.OneCastled:
		return fmt.Sprintf("%s has castled, the other side has not yet.", name), "it still may"
	case remark.BroadCentre:
		return fmt.Sprintf("%s has both centre pawns on the fourth rank.", name), fmt.Sprintf("pawns %s and %s, and none of the other side against them there", on[0], on[1])
	case remark.RookUnmoved:
		return fmt.Sprintf("%s's rook on %s has not moved yet.", name, on[0]), "no rook of the other side is where it began"
	case remark.FileHeld:
		return fmt.Sprintf("%s's rook on %s has the open %s to itself.", name, on[0], englishFile(on[0])), "neither rook nor queen against it, and no rook can come there safely"
	case remark.PawnThorn:
		return fmt.Sprintf("%s's pawn on %s is a thorn beside the king.", name, on[0]), manAt(r, 0) + ", on the sixth rank, and it does not hang"
	case remark.KingCutOff:
		return fmt.Sprintf("The rook on %s cuts the king off from the pawn on %s.", on[0], on[2]), manAt(r, 1) + " is on the next file, the passed pawn beyond the rook"
	case remark.LongDiagonal:
		return fmt.Sprintf("%s looks all the way down the long diagonal.", capital(theMan(r, 0))), "nothing in its way, and the other side has no bishop of that colour"
	case remark.Immobile:
		return fmt.Sprintf("%s has no move at all.", capital(theMan(r, 0))), "its own men take every square it could go to, for two moves or more"
	case remark.PawnStorm:
		return fmt.Sprintf("%s's pawns on %s and %s march against the king.", name, on[0], on[1]), "on the wing of the other king, its own being elsewhere"
	case remark.IslandsMore:
		return fmt.Sprintf("%s's pawns stand in %s islands, the other side's in %s.", name, l.Number(own), l.Number(other)), "groups of neighbouring files with pawns on them"
	case remark.DoubledPawns:
		return fmt.Sprintf("%s has doubled pawns on the %s.", name, englishFile(on[0])), englishMenAt(r, 0) + "; the other side has no doubled ones"
	case remark.KingGuardsAlone:
		return fmt.Sprintf("Only the king guards %s, and the queen aims at it with help.", on[0]), manAt(r, 0) + ": the queen and another, or more, one behind the other perhaps"
	case remark.KingWalked:
		return fmt.Sprintf("%s's king has walked up to %s, with the queens on.", name, on[0]), manAt(r, 0) + ", and three pieces or more on the other side"
	case remark.KingActive:
		return fmt.Sprintf("%s's king is up on %s, the other king back on %s.", name, on[0], on[1]), "in an ending without queens"
	}
	return l.calmPieces(r, name)
}

func (english) calmPieces(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.PasserAside:
		return fmt.Sprintf("%s's passed pawn on %s stands far from all other pawns.", name, on[0]), "none within two files, and it is the only passed one"
	case remark.BishopForKnight:
		return fmt.Sprintf("%s has a bishop against a knight.", name), "each side has one of the two"
	case remark.NoPawnsLeft:
		return fmt.Sprintf("%s has no pawns left.", name), "pieces, and the other side has pawns"
	case remark.SameMan:
		same := "same "
		if r.Man(0).Type() == bitboard.Queen {
			same = ""
		}
		return fmt.Sprintf("%s has moved the %s%s three times in a row.", name, same, englishMan(r, 0)), manAt(r, 0)
	case remark.ChecksInRow:
		return fmt.Sprintf("That is the third check in a row by %s.", name), "its last three moves gave check"
	case remark.QueenOften:
		return fmt.Sprintf("%s has moved the queen three times already.", name), "within the first ten moves"
	}
	return "", ""
}
