package build

import (
	"math"
	"strings"
	"time"

	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/pgn"
	"clocktell/relay/tell"
)

// What is kept of how a side used its clock.
const (
	spentMoves  = 40             // own moves
	unknownTime = math.MaxUint16 // seconds; longer times are cut to one less
)

// leftMoves are the own moves after which the clock is kept.
var leftMoves = [...]int{10, 20, 30}

// sideTimes is how one side used its clock in one game, in whole seconds.
type sideTimes struct {
	prepared uint16 // own moves in preparation; unknownTime: it never left it
	left     [len(leftMoves)]uint16
	spent    [spentMoves]uint16
}

func noTimes() sideTimes {
	var t sideTimes
	t.prepared = unknownTime
	for i := range t.left {
		t.left[i] = unknownTime
	}
	for i := range t.spent {
		t.spent[i] = unknownTime
	}
	return t
}

// timesOf works out how both sides used their clocks in these moves; false where the game
// has no time control or no clocks.
func timesOf(g *pgn.Game, from bitboard.Position, moves []bitboard.Move) (times [2]sideTimes, ok bool) {
	if from.Turn() != bitboard.White || !hasClocks(g) {
		return times, false
	}
	control, err := clock.ParseControl(g.Tag("TimeControl"))
	if err != nil || !control.Known() {
		return times, false
	}
	w := timekeeper{control: control, filter: tell.New(control), at: from}
	for side := range times {
		times[side] = noTimes()
		w.timed[side] = control.First(clock.Side(side))
	}
	for i := range min(len(moves), 2*spentMoves) {
		w.move(i, moves[i], &g.Moves[i], &times[i%2])
	}
	return times, w.read
}

// clocksWithin is how many plies may pass before a game's first reading.
const clocksWithin = 8

func hasClocks(g *pgn.Game) bool {
	for i := range min(len(g.Moves), clocksWithin) {
		if readingOf(&g.Moves[i]) != (clock.Reading{}) {
			return true
		}
	}
	return false
}

// timekeeper follows a game's clocks.
type timekeeper struct {
	control clock.Control
	filter  tell.Filter
	at      bitboard.Position
	last    bitboard.Move
	took    bool // the last move captured
	timed   [2]clock.Timed
	inside  [2]int // own move with which a side was last held to be in preparation
	out     int    // sides that have left preparation: of both, the tell has no more to say
	read    bool   // some clock was read
}

// move follows one ply.
func (w *timekeeper) move(i int, move bitboard.Move, m *pgn.Move, to *sideTimes) {
	side, own := i%2, i/2+1
	w.timed[side] = w.control.After(w.control.Before(w.timed[side], w.timed[1-side]), own, readingOf(m), clock.Value{})
	now := &w.timed[side]
	if w.out < 2 {
		w.ask(i, move, now, to)
	}
	if now.SpentQuality == clock.QualityRead && now.Doubt == "" {
		w.read = true
		to.spent[own-1] = seconds(now.Spent)
	}
	for k, at := range leftMoves {
		if own == at && now.LeftQuality == clock.QualityRead {
			to.left[k] = seconds(now.Left)
		}
	}
}

// ask asks the tell after a move, which is not made yet.
func (w *timekeeper) ask(i int, move bitboard.Move, now *clock.Timed, to *sideTimes) {
	side := clock.Side(i % 2)
	w.filter = w.filter.Next(tell.Move{
		Ply: i + 1, Side: side, Spent: now.Spent, Quality: now.SpentQuality, Left: now.Left, Reply: w.reply(move),
	})
	w.prepared(i%2, i/2+1, to)
	w.took = w.at.Piece(move.To()) != bitboard.NoPiece
	w.last = move
	w.at.Make(move)
}

// prepared notes with which move a preparation ended: the last that was more likely
// from it than not, once the tell says that the side is thinking.
func (w *timekeeper) prepared(side, own int, to *sideTimes) {
	verdict, thinking := w.filter.Standing(clock.Side(side))
	switch {
	case to.prepared != unknownTime:
	case verdict == tell.Thinking:
		to.prepared = uint16(w.inside[side])
		w.out++
	case thinking < evenChance:
		w.inside[side] = own
	}
}

const evenChance = .5

func (w *timekeeper) reply(move bitboard.Move) tell.Reply {
	switch {
	case w.took && move.To() == w.last.To():
		return tell.Recapture
	case w.at.InCheck():
		return tell.EvadesCheck
	case w.took:
		return tell.AfterCapture
	}
	return tell.Quiet
}

func seconds(d time.Duration) uint16 {
	return uint16(min(max(0, d/time.Second), unknownTime-1))
}

// readingOf returns what a move's comments say of its clock.
func readingOf(m *pgn.Move) clock.Reading {
	return clock.Reading{Left: valueOf(m, "clk"), Spent: valueOf(m, "emt")}
}

func valueOf(m *pgn.Move, command string) clock.Value {
	operands, ok := m.Command(command)
	if !ok || len(operands) == 0 {
		return clock.Value{}
	}
	text := operands[0]
	if len(operands) > 1 {
		text = strings.Join(operands, ",")
	}
	d, err := clock.ParseReading(text)
	return clock.Value{D: d, OK: err == nil}
}
