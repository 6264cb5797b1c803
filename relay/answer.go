package relay

import (
	"errors"
	"fmt"
	"slices"

	"clocktell/relay/clock"
	"clocktell/relay/pgn"
)

// enterAnswer settles the open question for the feed or for the hand.
func (next *Board) enterAnswer(e ByHand) (string, error) {
	q := next.Question
	if q == nil || q.ID != e.Asked {
		return "", errors.New("that question is no longer open")
	}
	switch e.Keep {
	case "feed":
		next.dropEntry(q)
		return "the feed is right: " + orNothing(q.Feed), nil
	case "hand":
		next.keepEntry(q)
		return "by hand is right: " + orNothing(q.Hand), nil
	}
	return "", fmt.Errorf("keep the feed's or the hand's, not %q", e.Keep)
}

func orNothing(text string) string {
	if text == "" {
		return "no move"
	}
	return text
}

// dropEntry drops the entry asked about, and entered moves that stand on it.
func (next *Board) dropEntry(q *Question) {
	switch q.Kind {
	case AsksMove:
		next.Hand.Moves = slices.DeleteFunc(slices.Clone(next.Hand.Moves), func(m HandMove) bool { return m.Ply >= q.Ply })
	case AsksClock:
		next.Hand.Clocks = slices.DeleteFunc(slices.Clone(next.Hand.Clocks), func(c HandClock) bool { return c.Ply == q.Ply })
	case AsksResult:
		next.Hand.Result = nil
	case AsksName:
		next.Hand.Names[q.Side] = nil
	}
}

// keepEntry lets the entry stand against what the feed says now.
func (next *Board) keepEntry(q *Question) {
	switch q.Kind {
	case AsksMove:
		next.keepMoves(q.Ply)
	case AsksClock:
		next.Hand.Clocks = slices.Clone(next.Hand.Clocks)
		for i := range next.Hand.Clocks {
			if c := &next.Hand.Clocks[i]; c.Ply == q.Ply {
				c.Over = next.feedClock(q.Ply)
			}
		}
	case AsksResult:
		next.Hand.Result = &HandWord{Is: q.Hand, Over: q.Feed}
	case AsksName:
		next.Hand.Names[q.Side] = &HandWord{Is: q.Hand, Over: q.Feed}
	}
}

// textAt returns what a text says of a ply, from 1; "" nothing.
func textAt(moves []pgn.Move, ply int) string {
	if ply > len(moves) {
		return ""
	}
	return moves[ply-1].SAN
}

// keepMoves lets the moves shown up to a ply stand against what the feed says of them
// now: the entered one, and those of the feed's own that it has taken back or changed.
func (next *Board) keepMoves(ply int) {
	next.Hand.Moves = slices.Clone(next.Hand.Moves)
	feed := next.said().Moves
	for n := 1; n <= min(ply, len(next.Plies)); n++ {
		said := textAt(feed, n)
		if m := next.Hand.move(n); m != nil {
			m.Over, m.Graft = said, true
		} else if shown := &next.Plies[n-1]; !next.sameMove(n, said, shown.SAN) {
			next.Hand.Moves = append(next.Hand.Moves, HandMove{Ply: n, SAN: shown.SAN, Over: said, Graft: true, At: shown.Seen})
		}
	}
	if m := next.Hand.move(ply); m != nil { // which may stand behind all that is shown
		m.Over, m.Graft = textAt(feed, ply), true
	}
	slices.SortFunc(next.Hand.Moves, func(a, b HandMove) int { return a.Ply - b.Ply })
}

// feedClock returns what the feed followed says of the clock after a ply, or what was
// last told of it.
func (b *Board) feedClock(ply int) clock.Value {
	shown, g := &b.Plies[ply-1], b.said()
	if len(g.Moves) >= ply && shown.is(g.Moves[ply-1].SAN) {
		if said := heardOf(&g.Moves[ply-1]).reading.Left; said.OK {
			return said
		}
	}
	return shown.told.reading.Left
}
