package relay

import (
	"slices"

	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
	"clocktell/relay/prompt"
	"clocktell/relay/remark"
)

// plan marks a move on offer.
func plan(m bitboard.Move) prompt.Mark {
	return prompt.Mark{Kind: prompt.MarkPlan, From: m.From().String(), To: m.To().String()}
}

// behind returns a move and what follows on it.
func behind(m bitboard.Move, line []bitboard.Move) []bitboard.Move {
	return append([]bitboard.Move{m}, line...)
}

func (b *Board) saySwing(i int, s *opinion.Swing) prompt.Prompt {
	move := bitMove(b.Plies[i].Move)
	say := prompt.Turned(b.in, prompt.Turn{
		Name: b.Called(b.moverOf(i)), SAN: b.Plies[i].SAN, Was: b.judgement(s.Was), Is: b.judgement(s.Is), From: s.From, To: s.To, Great: s.Great(),
		Best: b.variation(i, s.Best), Answer: b.variation(i, behind(move, s.Answer)),
		Depths: [2]int{b.OpinionAt(i).Depth, b.OpinionAt(i + 1).Depth},
	})
	say.Marks = []prompt.Mark{{Kind: prompt.MarkLook, To: move.To().String()}, plan(s.Best[0])}
	if s.Is.Mate != 0 && b.mateSeen(i+1) {
		say.Priority = prompt.Silent // the mate itself is told
	}
	return say
}

// mateSeen reports whether it is told of the position after n plies that there is a mate.
func (b *Board) mateSeen(n int) bool {
	return slices.ContainsFunc(b.Plies[n-1].remarks.Remarks(), func(r remark.Remark) bool {
		return (r.Rule == remark.MateHere || r.Rule == remark.MateForced) && int(r.Said) == n
	})
}

func (b *Board) sayMissed(i int, m *opinion.MissedMate) prompt.Prompt {
	say := prompt.MissedMate(b.in, prompt.Missed{
		Name: b.Called(b.moverOf(i)), In: m.In, Is: b.judgement(m.Is), Line: b.variation(i, m.Best), Depth: b.OpinionAt(i).Depth,
	})
	say.Marks = []prompt.Mark{plan(m.Best[0])}
	return say
}

// sayOnly points at nothing: a sentence put on the air takes its marks along, and the move is
// still to be found.
func (b *Board) sayOnly(o *opinion.OnlyMove, other opinion.Natural, depth int) prompt.Prompt {
	n := len(b.Plies)
	return prompt.OnlyMove(b.in, prompt.Only{
		Name: b.Called(b.Turn()), Wins: o.Wins, Ahead: o.Ahead, NotNatural: other, Best: b.judgement(o.Best), Second: b.judgement(o.Second),
		Line: b.variation(n, o.Line), SecondLine: b.variation(n, o.Next), Depth: depth,
	})
}

func (b *Board) sayRefuted(r *opinion.Refutation, depth int) prompt.Prompt {
	n := len(b.Plies)
	place := b.Place(n)
	after := *place
	after.Make(r.Move)
	man := byte(0)
	if kind := place.Piece(r.Move.To()).Type(); kind != bitboard.Pawn && kind != bitboard.NoPieceType {
		man = kind.Letter()
	}
	say := prompt.RefutedMove(b.in, prompt.Refuted{
		Why: r.Why, Square: r.Move.To().String(), Man: man, Answer: after.SAN(r.Answer[0]),
		Was: b.judgement(r.Was), Is: b.judgement(r.Is), Best: b.variation(n, r.Best), Line: b.variation(n, behind(r.Move, r.Answer)), Depth: depth,
	})
	say.Marks = []prompt.Mark{plan(r.Move), {Kind: prompt.MarkDanger, From: r.Answer[0].From().String(), To: r.Answer[0].To().String()}}
	return say
}

// sayFirst says that the ply at index i was the engine's first choice, and false where that
// is no surprise. It is one of a sacrifice, of the only move, and of a move that no other comes
// near and that took a long think or is new.
func (b *Board) sayFirst(i int, f *opinion.FirstChoice) (prompt.Prompt, bool) {
	if i == 0 || opinion.Plain(b.Place(i-1), b.Place(i), bitMove(b.Plies[i-1].Move), f.Move) {
		return prompt.Prompt{}, false
	}
	first := prompt.First{
		Name: b.Called(b.moverOf(i)), SAN: b.Plies[i].SAN, Only: f.Only, Think: f.Clear && b.isLong(i, 0), New: f.Clear && b.Novelty() == i,
		Is: b.judgement(f.Is), Line: b.variation(i, f.Line), Depth: b.OpinionAt(i).Depth,
	}
	if f.Gives > 0 {
		first.Square = f.Move.To().String()
	}
	if !first.Only && !first.Think && !first.New && first.Square == "" {
		return prompt.Prompt{}, false
	}
	say := prompt.FirstChoice(b.in, first)
	say.Marks = []prompt.Mark{{Kind: prompt.MarkLook, To: f.Move.To().String()}}
	return say, true
}
