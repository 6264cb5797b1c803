package prompt

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
	"clocktell/relay/remark"
)

// Position says what stands on the board.
func (l english) Position(r *remark.Remark, name string) Words {
	w := Words{Ends: englishEnds(r)}
	for _, say := range []func(*remark.Remark, string) (text, evidence string){
		l.chance, l.danger, l.king, l.piece, l.pawn, l.passer, l.balance, l.draw, l.calm,
	} {
		if w.Text, w.Evidence = say(r, name); w.Text != "" {
			break
		}
	}
	return w
}

func englishEnds(r *remark.Remark) string {
	switch moves := (r.Life() + 1) / 2; moves {
	case 0, 1:
		return "with the next move"
	default:
		return fmt.Sprintf("when it no longer holds, or %s moves later", English.Number(moves))
	}
}

// englishMan names the man on the square at index i: "knight".
func englishMan(r *remark.Remark, i int) string {
	if t := r.Man(i).Type(); t != bitboard.Pawn {
		return englishMen[t.Letter()]
	}
	return "pawn"
}

// theMan is "the knight on e2", manAt "knight e2".
func theMan(r *remark.Remark, i int) string {
	return fmt.Sprintf("the %s on %s", englishMan(r, i), r.Squares()[i])
}

func manAt(r *remark.Remark, i int) string {
	return fmt.Sprintf("%s %s", englishMan(r, i), r.Squares()[i])
}

// capital begins a sentence.
func capital(text string) string {
	_, size := utf8.DecodeRuneInString(text)
	return strings.ToUpper(text[:size]) + text[size:]
}

// takes reports whether the move of the man at index i captures: the next square is its arrival.
func takes(r *remark.Remark, i int) bool {
	on := r.Squares()
	return i+1 < len(on) && on[i+1] == r.Move.To() && r.Man(i+1).Type() != bitboard.NoPieceType
}

// planned is the move on offer, as "queen to h7" or "queen takes h7", its piece standing at index i.
func planned(r *remark.Remark, i int) string {
	if takes(r, i) {
		return fmt.Sprintf("%s takes %s", englishMan(r, i), r.Move.To())
	}
	return fmt.Sprintf("%s to %s", englishMan(r, i), r.Move.To())
}

// englishTargets names men by their kind: "king and rook", "two rooks".
func englishTargets(r *remark.Remark, from int) string {
	var kinds []string
	for i := from; i < len(r.Squares()); i++ {
		kinds = append(kinds, englishMan(r, i))
	}
	if len(kinds) == 2 && kinds[0] == kinds[1] {
		return "two " + kinds[0] + "s"
	}
	return listed(kinds, "and")
}

func listed(words []string, and string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " " + and + " " + words[n]
}

func englishMenAt(r *remark.Remark, from int) string {
	var list []string
	for i := from; i < len(r.Squares()); i++ {
		list = append(list, manAt(r, i))
	}
	return listed(list, "and")
}

// points says what is won in the usual values.
func points(r *remark.Remark) string {
	return fmt.Sprintf("wins at least %d points whatever the reply (knight and bishop 3, rook 5, queen 9)", int(r.Amount)/bitboard.PawnValue)
}

func (english) chance(r *remark.Remark, name string) (text, evidence string) {
	switch r.Rule {
	case remark.MateHere:
		return fmt.Sprintf("%s has mate in one: %s.", name, planned(r, 0)), manAt(r, 0) + "–" + r.Move.To().String() + " mates"
	case remark.MateForced:
		return fmt.Sprintf("%s has a forced mate in %s: %s.", name, English.Number(int(r.Amount)), planned(r, 0)), manAt(r, 0) + "–" + r.Move.To().String() + " and checks from there on; every reply was tried"
	case remark.MateThreatened:
		return fmt.Sprintf("%s threatens mate: %s.", name, planned(r, 0)), manAt(r, 0) + "–" + r.Move.To().String() + " would mate"
	case remark.ForkOffered:
		return fmt.Sprintf("%s can fork %s: %s.", name, englishTargets(r, 2), planned(r, 0)),
			fmt.Sprintf("%s–%s attacks %s; %s", manAt(r, 0), r.Move.To(), englishMenAt(r, 2), points(r))
	case remark.SkewerOffered:
		return fmt.Sprintf("%s can skewer %s: %s.", name, englishTargets(r, 2), planned(r, 0)),
			fmt.Sprintf("%s–%s attacks %s and behind it %s; %s", manAt(r, 0), r.Move.To(), manAt(r, 2), manAt(r, 3), points(r))
	case remark.DiscoveryOffered:
		discovery := "attack on the " + englishMan(r, 3)
		if r.Man(3).Type() == bitboard.King {
			discovery = "check"
		}
		return fmt.Sprintf("%s has a discovered %s: %s.", name, discovery, planned(r, 0)),
			fmt.Sprintf("%s–%s opens the line of %s to %s; %s", manAt(r, 0), r.Move.To(), manAt(r, 2), manAt(r, 3), points(r))
	case remark.DoubleDuty:
		return fmt.Sprintf("%s has two jobs and cannot do both: %s and %s.", capital(theMan(r, 0)), r.Squares()[1], r.Squares()[2]),
			fmt.Sprintf("it alone guards %s and %s; capturing on %s first %s", manAt(r, 1), manAt(r, 2), r.Squares()[1], points(r))
	case remark.GuardRemovable:
		return fmt.Sprintf("Only %s guards %s, and it can be taken.", theMan(r, 0), theMan(r, 1)),
			fmt.Sprintf("%s takes %s; that %s", manAt(r, 2), manAt(r, 0), points(r))
	case remark.PieceHangs:
		return fmt.Sprintf("%s hangs: %s can take it.", capital(theMan(r, 0)), theMan(r, 1)),
			fmt.Sprintf("%s takes %s and %s", manAt(r, 1), manAt(r, 0), points(r))
	}
	return "", ""
}

func (english) danger(r *remark.Remark, name string) (text, evidence string) {
	switch r.Rule {
	case remark.PieceTrapped:
		return fmt.Sprintf("%s is trapped: no move saves it.", capital(theMan(r, 0))),
			fmt.Sprintf("%s: attacked by %s, and after every move at least %d points are lost", manAt(r, 0), manAt(r, 1), int(r.Amount)/bitboard.PawnValue)
	case remark.TrapOffered:
		return fmt.Sprintf("%s can be trapped: %s.", capital(theMan(r, 0)), planned(r, 1)),
			fmt.Sprintf("%s has no safe square; after %s–%s no move saves it", manAt(r, 0), manAt(r, 1), r.Move.To())
	case remark.NoSquareLeft:
		return fmt.Sprintf("%s has run out of safe squares: %s traps it.", capital(theMan(r, 0)), planned(r, 1)),
			fmt.Sprintf("%s: every square it can go to loses it or more", manAt(r, 0))
	case remark.PinAttacked:
		return fmt.Sprintf("%s is pinned to the %s and attacked again.", capital(theMan(r, 0)), englishMan(r, 2)),
			fmt.Sprintf("%s pins %s to %s; attacked by %s as well, and it hangs", manAt(r, 1), manAt(r, 0), manAt(r, 2), manAt(r, 3))
	case remark.NoSafeSquare:
		return fmt.Sprintf("%s has no safe square to go to.", capital(theMan(r, 0))), "every move of it loses material"
	case remark.PinLasting:
		return fmt.Sprintf("%s is still pinned to the %s.", capital(theMan(r, 0)), englishMan(r, 2)),
			fmt.Sprintf("%s pins %s to %s for a move or more", manAt(r, 1), manAt(r, 0), manAt(r, 2))
	}
	return "", ""
}

func englishFile(s remark.Square) string { return s.String()[:1] + "-file" }

func (l english) king(r *remark.Remark, name string) (text, evidence string) {
	switch r.Rule {
	case remark.CastlingPrevented:
		return l.castling(r, name)
	case remark.CastlingGivenUp:
		return fmt.Sprintf("%s can no longer castle, and the queens are on.", name), fmt.Sprintf("king on %s, no right to castle left", r.Squares()[0])
	case remark.CentreOpen:
		return fmt.Sprintf("%s's king is in the centre, and the %s is open.", name, englishFile(r.Squares()[1])),
			fmt.Sprintf("%s, with %s on the open file", manAt(r, 0), englishMenAt(r, 1))
	case remark.FileToKing:
		return fmt.Sprintf("The %s is open to %s's king.", englishFile(r.Squares()[1]), name),
			fmt.Sprintf("%s, with %s on the open file", manAt(r, 0), englishMenAt(r, 1))
	case remark.KingLate:
		return fmt.Sprintf("After fourteen moves %s's king is still in the centre.", name),
			fmt.Sprintf("%s, queens on the board, the other king away from the centre", manAt(r, 0))
	case remark.OppositeWings:
		return "The kings stand on opposite wings, with the queens on.", "one king on the files a to c, the other on g or h"
	case remark.KingUnderFire:
		guards := "none guards it"
		switch n := int(r.Amount % 10); {
		case n == 1:
			guards = "only one guards it"
		case n > 1:
			guards = "only " + English.Number(n) + " guard it"
		}
		return fmt.Sprintf("%s pieces aim at %s's king, and %s.", capital(English.Number(int(r.Amount/10))), name, guards),
			fmt.Sprintf("%s: so many attack its square or those next to it, the queen among them", manAt(r, 0))
	case remark.FianchettoGone:
		return fmt.Sprintf("The squares around %s's king have lost their bishop.", name),
			fmt.Sprintf("%s behind %s; the other side still has a bishop of that colour, and the queen", manAt(r, 0), manAt(r, 1))
	case remark.BackRank:
		return fmt.Sprintf("%s's back rank is unguarded, and the king has no way out.", name),
			fmt.Sprintf("%s, no rook or queen beside it, every square before it taken or attacked; %s", manAt(r, 0), manAt(r, 1))
	case remark.CoverGone:
		if r.Amount == 0 {
			return fmt.Sprintf("%s's king has no pawn left for cover.", name), manAt(r, 0) + ": no pawn of its own close before it"
		}
		return fmt.Sprintf("%s's king has only one pawn left for cover.", name), manAt(r, 0) + ", covered by " + englishMenAt(r, 1)
	}
	return "", ""
}

func (english) castling(r *remark.Remark, name string) (text, evidence string) {
	wing := "short"
	if r.Wing == facts.QueenSide {
		wing = "long"
	}
	evidence = fmt.Sprintf("%s attacks %s, which the king would cross or reach", manAt(r, 2), r.Squares()[1])
	if len(r.Squares()) > 3 {
		return fmt.Sprintf("%s cannot castle %s: %s and %s forbid it.", name, wing, theMan(r, 2), theMan(r, 3)),
			evidence + "; so does " + manAt(r, 3) + " there or next to it"
	}
	return fmt.Sprintf("%s cannot castle %s while %s covers %s.", name, wing, theMan(r, 2), r.Squares()[1]), evidence
}
