package relay_test

import (
	"math/rand/v2"
	"time"

	"github.com/notnil/chess"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// produce lets the producer do something, sensible or not.
func (w *world) produce() {
	b := w.stage.Board(1 + w.r.IntN(len(w.stage.Show.Boards)))
	e := relay.ByHand{Board: b.Number, Ply: len(b.Plies)}
	switch n := w.r.IntN(24); {
	case b.Question != nil && n < 12:
		e.Act, e.Asked, e.Keep = relay.ActAnswer, b.Question.ID, "feed"
		if n < 4 && (b.Question.Kind != relay.AsksMove || w.is.stubborn) {
			e.Keep = "hand"
		}
	case n < 8:
		e.Act, e.Ply, e.SAN = relay.ActMove, len(b.Plies)+1, w.sanFor(b)
	case n < 12:
		e.Act = relay.ActCorrect
		if n < 10 && len(b.Plies) > 0 {
			e.SAN = w.sanBefore(b)
		}
	case n < 15:
		e.Act, e.Ply = relay.ActClock, len(b.Plies)-w.r.IntN(3)
		e.Left = time.Duration(w.r.IntN(600)) * time.Second
	case n < 17:
		e.Act, e.Text = relay.ActResult, []string{"1-0", "0-1", "1/2-1/2", "*", "*", "2-0"}[w.r.IntN(6)]
	case n < 19:
		e.Act, e.Side, e.Text = relay.ActName, "white", b.Players[0].Short()+[]string{", A", ", Anna", ", B"}[w.r.IntN(3)]
	case n < 20:
		e.Act = relay.ActFreeze
	case n < 22:
		e.Act = relay.ActThaw
	default:
		e.Act, e.Feed = relay.ActPin, []string{"", "", relaytest.FeedName, relaytest.BackupName}[w.r.IntN(4)]
	}
	w.enter(e)
}

func (w *world) enter(e relay.ByHand) string {
	w.acted = e.Board
	return w.stage.Enter(e)
}

// sanFor returns a move for the position of a board, most times the right one.
func (w *world) sanFor(b *relay.Board) string {
	if g := w.gameOf(b); g != nil && len(g.sans) > len(b.Plies) && w.r.IntN(3) > 0 {
		return g.sans[len(b.Plies)]
	}
	return anyOf(w.r, b, len(b.Plies))
}

// sanBefore returns another move for the last ply of a board.
func (w *world) sanBefore(b *relay.Board) string {
	n := len(b.Plies) - 1
	if g := w.gameOf(b); g != nil && len(g.sans) > n && g.sans[n] != b.Plies[n].SAN {
		return g.sans[n]
	}
	return anyOf(w.r, b, n)
}

// anyOf returns a move for the position of a board before the ply at index n.
func anyOf(r *rand.Rand, b *relay.Board, n int) string {
	position := chess.StartingPosition()
	for i := range n {
		position = position.Update(b.Plies[i].Move)
	}
	san, _ := anyMove(r, position)
	return san
}

// gameOf returns the game that a board should show, known by its black player.
func (w *world) gameOf(b *relay.Board) *truth {
	for _, g := range w.games {
		if g.Black == b.Players[1].Name {
			return g
		}
	}
	return nil
}

// givenUp returns an entry for each board that gives up something entered.
func (w *world) givenUp() []relay.ByHand {
	var out []relay.ByHand
	for _, b := range w.stage.Show.Boards {
		if e, any := w.giveUp(b); any {
			e.Board = b.Number
			out = append(out, e)
		}
	}
	return out
}

func (w *world) giveUp(b *relay.Board) (relay.ByHand, bool) {
	h := &b.Hand
	switch {
	case b.Question != nil:
		return relay.ByHand{Act: relay.ActAnswer, Keep: "feed", Asked: b.Question.ID}, true
	case !b.Frozen.IsZero():
		return relay.ByHand{Act: relay.ActThaw}, true
	case b.Pinned != "":
		return relay.ByHand{Act: relay.ActPin}, true
	case h.Result != nil:
		return relay.ByHand{Act: relay.ActResult, Text: h.Result.Over}, true
	case h.Names[0] != nil:
		return relay.ByHand{Act: relay.ActName, Side: "white", Text: h.Names[0].Over}, true
	case len(h.Moves) > 0:
		return w.giveUpMove(b, h.Moves[len(h.Moves)-1])
	}
	return relay.ByHand{}, false
}

// giveUpMove puts in place of an entered ply what the feed says of it.
func (w *world) giveUpMove(b *relay.Board, m relay.HandMove) (relay.ByHand, bool) {
	e := relay.ByHand{Act: relay.ActCorrect, Ply: m.Ply}
	if g := w.gameOf(b); g != nil && len(g.sans) >= m.Ply {
		e.SAN = g.sans[m.Ply-1]
	}
	if m.Ply == len(b.Plies)+1 { // it was taken back
		e.Act = relay.ActMove
	}
	return e, true
}
