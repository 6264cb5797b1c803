package relay

import (
	"time"

	"github.com/notnil/chess"

	"clocktell/relay/clock"
	"clocktell/relay/tell"
)

// retime works out again, from the ply at index from on, what follows from the
// readings: spent times, tells, looks.
func (next *Board) retime(from int) {
	defer next.findOdd()
	for i := from; i < len(next.Plies); i++ {
		ply := &next.Plies[i]
		side := next.moverOf(i)
		filter := next.filterBefore(i)
		ply.Timed = next.Control.For(side).After(next.timedBefore(i), ownMove(i), ply.mended, next.waited(i))
		after := filter.Next(tell.Move{
			Ply: i + 1, Side: side, Spent: ply.Timed.Spent, Quality: ply.Timed.SpentQuality,
			Left: ply.Timed.Left, Reply: ply.Reply, Legal: ply.Legal, Rescued: ply.Rescued, Known: next.knowledge(i),
			Resolution: next.resolutionOf(ply),
		})
		ply.filter = &after
		call := ply.filter.Call(side)
		ply.Look = lookOf(ply, side, call)
		ply.leaves = call.Before == tell.InPreparation && call.Verdict == tell.Thinking && call.Since == i+1
	}
}

func (next *Board) filterBefore(i int) tell.Filter {
	if i == 0 {
		return *next.filter0
	}
	return *next.Plies[i-1].filter
}

// timedBefore returns the mover's clock before the ply at index i.
func (next *Board) timedBefore(i int) clock.Timed {
	own := next.Control.First(next.moverOf(i))
	if i >= 2 {
		own = next.Plies[i-2].Timed
	}
	if i < 1 {
		return own
	}
	return next.Control.Before(own, next.Plies[i-1].Timed)
}

// waited returns the time between the receipts of a ply and the one before, if
// both receipts tell when the plies were played.
func (next *Board) waited(i int) clock.Value {
	if i == 0 || !next.Plies[i].Alone || !next.Plies[i].Sure() || !next.Plies[i-1].Sure() {
		return clock.Value{}
	}
	return clock.Value{D: next.Plies[i].Seen.Sub(next.Plies[i-1].Seen), OK: true}
}

// Probabilities of thinking from which a move is drawn as a thought, and from which
// it may be one. The page draws the move under way by the same two (tellmap.js).
const (
	sureThinking   = 0.9
	likelyThinking = 0.5
)

func lookOf(ply *Ply, side clock.Side, call tell.Call) Look {
	switch {
	case ply.Timed.SpentQuality == clock.QualityNone:
		return LookNone
	case ply.filter.Trouble(side, ply.Timed.Left, 0).Level >= TroubleShows:
		return LookTrouble
	case call.Verdict == tell.Thinking || call.Thinking >= sureThinking:
		return LookThinking
	case call.Thinking >= likelyThinking:
		return LookUnsure
	}
	return LookPreparation
}

// end takes the result, by the Laws where the position gives it (mate 5.1.1,
// stalemate 5.2.1), and stops the clocks of a game that has just ended where they
// stand.
func (next *Board) end(before *Board, t time.Time) {
	if next.Result == "*" {
		next.Result = lawfulResult(next.position())
	}
	switch {
	case !next.Over():
		next.EndedAt = time.Time{}
	case before.Game == next.Game && !before.EndedAt.IsZero():
		next.EndedAt = before.EndedAt
	case before.Game == next.Game && before.Rev > 0 && before.Held():
		next.EndedAt = before.HeldAt
	case before.Game == next.Game && before.Rev > 0:
		next.EndedAt = t
	default:
		next.EndedAt = next.Anchor // found finished: nobody knows how long the last think was
	}
}

// lawfulResult returns the result that a position without legal moves has.
func lawfulResult(position *chess.Position) string {
	switch position.Status() {
	case chess.Stalemate:
		return "1/2-1/2"
	case chess.Checkmate:
		if position.Turn() == chess.White {
			return "0-1"
		}
		return "1-0"
	}
	return "*"
}
