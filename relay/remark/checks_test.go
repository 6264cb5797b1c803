package remark

import (
	"fmt"
	"testing"

	notnil "github.com/notnil/chess"

	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
)

// TestHolds takes what is said in games of the library and holds each to a check that shares
// no code with it, where there is one: the library's legal moves, searches over
// them, and the men on the board as the library has them.
func TestHolds(t *testing.T) {
	games := 100
	if full() {
		games = 1000
	}
	checked, positions := make(map[Rule]int), 0
	for _, game := range libraryGames(t, games) {
		steps := played(t, &game)
		for i := range steps {
			positions++
			for _, r := range steps[i].fresh() {
				wrong, ok := wrongWith(t, &r, steps, i)
				if ok {
					checked[r.Rule]++
				}
				if wrong != "" {
					t.Errorf("%s: %s: %s", steps[i].after.FEN(), r, wrong)
				}
			}
		}
	}
	total := 0
	for _, n := range checked {
		total += n
	}
	t.Logf("%d remarks of %d rules in %d positions: %v", total, len(checked), positions, checked)
	if total < 4*games || len(checked) < 25 {
		t.Error("too few to say anything")
	}
}

// wrongWith says what is wrong with a remark; ok is false if there is no check for its rule.
func wrongWith(t *testing.T, r *Remark, steps []step, i int) (wrong string, ok bool) {
	p := &steps[i].after
	on := r.Squares()
	switch r.Rule {
	case MateHere, MateThreatened:
		view := asIfOnMove(t, p, r.Side)
		m := legalMove(view, r.Move)
		if m == nil || view.Update(m).Status() != notnil.Checkmate {
			return "no mate", true
		}
	case MateForced:
		return notMated(asIfOnMove(t, p, r.Side), r), true
	case ForkOffered, SkewerOffered:
		return winsLess(asIfOnMove(t, p, p.Turn()), r, on[2:]), true
	case DiscoveryOffered:
		return winsLess(asIfOnMove(t, p, p.Turn()), r, on[3:]), true
	case PieceHangs:
		return winsLess(asIfOnMove(t, p, p.Turn()), r, nil), true
	case GuardRemovable:
		return winsLess(asIfOnMove(t, p, p.Turn()), r, on[:2]), true
	case DoubleDuty:
		return winsLess(asIfOnMove(t, p, p.Turn()), r, on[1:]), true
	case PieceTrapped:
		if lost := leastLost(asIfOnMove(t, p, r.Side), on[0]); lost < worthSaying {
			return fmt.Sprintf("a move loses only %d", lost), true
		}
	case TrapOffered, NoSquareLeft:
		view := asIfOnMove(t, p, r.Side.Other())
		m := legalMove(view, r.Move)
		if m == nil {
			return "no such move", true
		}
		if lost := leastLost(view.Update(m), on[0]); lost < worthSaying {
			return fmt.Sprintf("a move loses only %d", lost), true
		}
	case CastlingPrevented:
		return castlingWrong(t, r, p), true
	case PositionTwice, PositionThrice:
		return timesWrong(r, steps, i), true
	case QueensGone:
		return offersWrong(t, r, &steps[i]), true
	default:
		if wrong, ok := structureWrong(t, r, p); ok {
			return wrong, true
		}
		return standingWrong(t, r, p)
	}
	return "", true
}

// winsLess says if the search does not find what the remark promises.
func winsLess(view *notnil.Position, r *Remark, squares []Square) string {
	won, ok := leastFound(view, r.Move, squares)
	if !ok || won < worthSaying || won < int(r.Amount) {
		return fmt.Sprintf("promises %d, the search finds %d, %v", r.Amount, won, ok)
	}
	return ""
}

// castlingWrong: castling is not legal as the board stands, and is if the men named are gone.
func castlingWrong(t *testing.T, r *Remark, p *Position) string {
	tag := notnil.KingSideCastle
	if r.Wing == facts.QueenSide {
		tag = notnil.QueenSideCastle
	}
	if canCastle(asIfOnMove(t, p, r.Side), tag) {
		return "it can castle"
	}
	for _, men := range [][]Square{r.Squares()[2:]} {
		if view := asIfOnMove(t, p, r.Side); !canCastle(without(t, view, men), tag) {
			return "it cannot castle without the men named"
		}
	}
	return ""
}

func canCastle(p *notnil.Position, tag notnil.MoveTag) bool {
	for _, m := range p.ValidMoves() {
		if m.HasTag(tag) {
			return true
		}
	}
	return false
}

// without takes men off the board.
func without(t *testing.T, p *notnil.Position, men []Square) *notnil.Position {
	squares := p.Board().SquareMap()
	for _, on := range men {
		delete(squares, notnil.Square(on))
	}
	turn := "w"
	if p.Turn() == notnil.Black {
		turn = "b"
	}
	return notnilAt(t, fmt.Sprintf("%s %s %s - 0 1", notnil.NewBoard(squares), turn, p.CastleRights()))
}

// timesWrong counts how often the board stood so with the same side to move, by FEN. A right to
// capture en passant is left out, so that it may count more.
func timesWrong(r *Remark, steps []step, i int) string {
	times := 1
	now := fields(&steps[i].after, 3)
	start := bitboard.Start()
	if fields(&start, 3) == now {
		times++
	}
	for _, one := range steps[:i] {
		if fields(&one.after, 3) == now {
			times++
		}
	}
	if times < int(r.Amount) {
		return fmt.Sprintf("it stands for the time number %d", times)
	}
	return ""
}
