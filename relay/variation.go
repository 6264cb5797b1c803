package relay

import (
	"fmt"
	"strings"

	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/opinion"
	"clocktell/relay/prompt"
)

// variationMost is how many plies of a line an evidence has: more is not taken in.
const variationMost = 6

// variation writes moves from the position after n plies with their numbers, as in
// "23...Rd8 24.Qd3 Kg7". A move that cannot be played ends it.
func (b *Board) variation(n int, moves []bitboard.Move) string {
	at := *b.Place(n)
	var words []string
	for i, m := range moves[:min(variationMost, opinion.Playable(&at, moves))] {
		number, side := b.MoveNumber(n + i)
		san := at.SAN(m)
		switch {
		case side == clock.White:
			san = fmt.Sprintf("%d.%s", number, san)
		case i == 0:
			san = fmt.Sprintf("%d...%s", number, san)
		}
		words = append(words, san)
		at.Make(m)
	}
	return strings.Join(words, " ")
}

// judgement returns a score as it is spoken of.
func (b *Board) judgement(s opinion.Score) prompt.Judgement {
	return prompt.Judgement{Score: s, White: b.Called(clock.White), Black: b.Called(clock.Black)}
}
