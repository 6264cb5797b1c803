package relay

import (
	"fmt"
	"slices"
	"time"

	"github.com/notnil/chess"

	"clocktell/relay/clock"
	"clocktell/relay/pgn"
	"clocktell/relay/tell"
)

// follow takes the moves of g onto next. It returns the first ply index at
// which anything differs from before, clocks included, and what was corrected.
//
// A game that breaks off (a half-written packet) never takes a move back: only
// a text that goes on to its result, or to another move, does.
func (next *Board) follow(g *pgn.Game, r Receipt) (int, *Correction) {
	old := next.Plies
	moves := trusted(g)
	same := next.commonPlies(moves)
	next.Fault = ""
	if same == len(moves) && same < len(old) && g.Result == "" {
		return len(old), nil
	}
	next.Plies = slices.Clip(old[:same])
	next.play(moves[same:], old, r)
	return min(same, next.firstClockChange(moves[:same])), corrected(old, next.Plies, same, r.At)
}

// trusted leaves out a last move that may be half a word: O-O may still become
// O-O-O.
func trusted(g *pgn.Game) []pgn.Move {
	for _, fault := range g.Faults {
		if fault.Reason == pgn.FaultOpenEnd && len(g.Moves) > 0 {
			return g.Moves[:len(g.Moves)-1]
		}
	}
	return g.Moves
}

// commonPlies counts the plies that stand as they were. A move written in
// another way is still the same move.
func (next *Board) commonPlies(moves []pgn.Move) int {
	before := next.start
	for i := range min(len(moves), len(next.Plies)) {
		ply := &next.Plies[i]
		if ply.Text != moves[i].SAN {
			move, err := resolve(before, moves[i].SAN)
			if err != nil || move.String() != ply.Move.String() {
				return i
			}
		}
		before = ply.position
	}
	return min(len(moves), len(next.Plies))
}

// play appends moves until one is not legal, and names that one.
func (next *Board) play(moves []pgn.Move, old []Ply, r Receipt) {
	fresh := len(next.Plies) + len(moves) - len(old)
	for i := range moves {
		before := next.position()
		move, err := resolve(before, moves[i].SAN)
		if err != nil {
			next.Fault = next.faultAt(moves[i].SAN, err)
			return
		}
		ply := newPly(before, move, next.lastMove())
		ply.Text, ply.Reading = moves[i].SAN, readingOf(&moves[i])
		ply.Seen, ply.Within, ply.Alone = r.At, r.Within, fresh == 1
		if n := len(next.Plies); n < len(old) {
			// A corrected move was played when the wrong one was entered.
			ply.Seen, ply.Within, ply.Alone = old[n].Seen, old[n].Within, old[n].Alone
		}
		next.Plies = append(next.Plies, ply)
	}
}

func (next *Board) lastMove() *chess.Move {
	if n := len(next.Plies); n > 0 {
		return next.Plies[n-1].Move
	}
	return nil
}

func (next *Board) faultAt(text string, err error) string {
	number, side := next.MoveNumber(len(next.Plies))
	shown := "the game is shown up to its start"
	if n := len(next.Plies); n > 0 {
		shown = "the game is shown up to " + next.moveText(n-1)
	}
	return fmt.Sprintf("move %s: %v; %s", numbered(number, side, text), err, shown)
}

// moveText returns a ply with its number, as in 23...Qxh4.
func (b *Board) moveText(i int) string {
	number, side := b.MoveNumber(i)
	return numbered(number, side, b.Plies[i].SAN)
}

func numbered(number int, side clock.Side, san string) string {
	if side == clock.Black {
		return fmt.Sprintf("%d...%s", number, san)
	}
	return fmt.Sprintf("%d.%s", number, san)
}

func newPly(before *chess.Position, move, last *chess.Move) Ply {
	return Ply{
		Move: move, SAN: chess.AlgebraicNotation{}.Encode(before, move),
		Reply: replyOf(before, move, last), Legal: len(before.ValidMoves()),
		position: before.Update(move),
	}
}

// replyOf classes a move by what it answers; see relay/tell for why.
func replyOf(before *chess.Position, move, last *chess.Move) tell.Reply {
	switch {
	case last == nil:
		return tell.Quiet
	case last.HasTag(chess.Capture) && move.S2() == last.S2():
		return tell.Recapture
	case last.HasTag(chess.Check):
		return tell.EvadesCheck
	case last.HasTag(chess.Capture):
		return tell.AfterCapture
	}
	return tell.Quiet
}

// corrected compares what stood at index i with what stands there now.
func corrected(old, plies []Ply, i int, at time.Time) *Correction {
	if i >= len(old) {
		return nil
	}
	correction := &Correction{Ply: i + 1, Was: old[i].SAN, At: at}
	if i < len(plies) {
		correction.Is = plies[i].SAN
	}
	return correction
}

// firstClockChange takes the readings of moves that stand, and returns the
// first index whose reading is another one. The plies are copied before the
// first write: the board before still shows them.
func (next *Board) firstClockChange(moves []pgn.Move) int {
	first := len(next.Plies)
	for i := range moves {
		reading := readingOf(&moves[i])
		if reading == next.Plies[i].Reading {
			continue
		}
		if first > i {
			first, next.Plies = i, slices.Clone(next.Plies)
		}
		next.Plies[i].Reading = reading
	}
	return first
}

func readingOf(move *pgn.Move) clock.Reading {
	return clock.Reading{Left: valueOf(move, "clk"), Spent: valueOf(move, "emt"), Total: valueOf(move, "egt")}
}

func valueOf(move *pgn.Move, name string) clock.Value {
	operands, ok := move.Command(name)
	if !ok || len(operands) != 1 {
		return clock.Value{}
	}
	d, err := clock.ParseReading(operands[0])
	return clock.Value{D: d, OK: err == nil}
}

// retime works out again, from the ply at index from on, what follows from the
// readings: spent times, tells, looks.
func (next *Board) retime(from int) {
	for i := from; i < len(next.Plies); i++ {
		ply := &next.Plies[i]
		side := next.moverOf(i)
		filter := next.filterBefore(i)
		ply.Timed = next.Control.After(next.timedBefore(i), ownMove(i), ply.Reading, next.waited(i))
		ply.filter = filter.Next(tell.Move{
			Ply: i + 1, Side: side, Spent: ply.Timed.Spent, Quality: ply.Timed.SpentQuality,
			Left: ply.Timed.Left, Reply: ply.Reply, Legal: ply.Legal,
		})
		ply.Look = lookOf(ply, side)
	}
	if n := len(next.Plies); n > 0 {
		next.Anchor = next.Plies[n-1].Seen
	}
}

func (next *Board) filterBefore(i int) tell.Filter {
	if i == 0 {
		return next.filter0
	}
	return next.Plies[i-1].filter
}

// timedBefore returns the mover's clock before the ply at index i.
func (next *Board) timedBefore(i int) clock.Timed {
	if i < 2 {
		return next.Control.First()
	}
	return next.Plies[i-2].Timed
}

// waited returns the time between the receipts of a ply and the one before, if
// both receipts tell when the plies were played.
func (next *Board) waited(i int) clock.Value {
	if i == 0 || !next.Plies[i].Alone || !next.Plies[i].Sure() || !next.Plies[i-1].Sure() {
		return clock.Value{}
	}
	return clock.Value{D: next.Plies[i].Seen.Sub(next.Plies[i-1].Seen), OK: true}
}

func lookOf(ply *Ply, side clock.Side) Look {
	call := ply.filter.Call(side)
	switch {
	case ply.Timed.SpentQuality == clock.QualityNone:
		return LookNone
	case ply.filter.Trouble(side, ply.Timed.Left, 0).Level >= 2:
		return LookTrouble
	case call.Verdict == tell.Thinking || call.Thinking >= 0.9:
		return LookThinking
	case call.Thinking >= 0.5:
		return LookUnsure
	}
	return LookPreparation
}
