package relay

import (
	"slices"

	"clocktell/relay/pgn"
)

// Told returns the game as the board's feed told it last, with the moves that were entered
// by hand; nil before any. Nothing of it may be changed.
func (b *Board) Told() *pgn.Game { return b.taken }

// FENAfter returns the position after so many plies, at most those that were played.
func (b *Board) FENAfter(plies int) string {
	if b.fens != nil {
		return b.fens[min(max(0, plies), len(b.Plies))]
	}
	return deskGame{b}.Position(min(max(0, plies), len(b.Plies))).String()
}

// StartTag returns the position that the game was set up with, as its FEN tag has it; ""
// for the usual one.
func (b *Board) StartTag() string { return b.start.text }

// Kept returns the board as it is kept when another game has come to its place: all that can be
// told of its game is there, and not what only its next move would need, which is most of
// it. It is to be read, and not to be shown on.
func (b *Board) Kept() *Board {
	next := *b
	next.Offers, next.Hand, next.Question, next.accepted, next.lost, next.filter0 = nil, Hand{}, nil, nil, nil, nil
	next.Plies, next.fens = slices.Clone(b.Plies), []string{b.FENAfter(0)}
	for i := range next.Plies {
		next.fens = append(next.fens, b.FENAfter(i+1))
		next.Plies[i].filter, next.Plies[i].remarks = nil, nil
		if i < len(next.Plies)-1 {
			next.Plies[i].position = nil // the last is the board's
		}
	}
	return &next
}
