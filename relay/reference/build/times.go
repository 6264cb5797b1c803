package build

import (
	"encoding/binary"
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
	controlMost = 60             // bytes of a TimeControl tag
)

// leftMoves are the own moves after which the clock is kept.
var leftMoves = [...]int{10, 20, 30}

// gameTimes is how both sides used their clocks in one game.
type gameTimes struct {
	control string // as the tag has it
	sides   [2]sideTimes
	replies [2 * spentMoves]tell.Reply // of each ply
	plies   int
}

// sideTimes are in whole seconds.
type sideTimes struct {
	left  [len(leftMoves)]uint16
	spent [spentMoves]uint16
}

func noTimes() sideTimes {
	var t sideTimes
	for i := range t.left {
		t.left[i] = unknownTime
	}
	for i := range t.spent {
		t.spent[i] = unknownTime
	}
	return t
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

// timesOf works out how both sides used their clocks in these moves; false where the game
// has no time control or no clocks.
func timesOf(g *pgn.Game, from bitboard.Position, moves []bitboard.Move) (times gameTimes, ok bool) {
	text := g.Tag("TimeControl")
	if from.Turn() != bitboard.White || len(text) > controlMost || !hasClocks(g) {
		return times, false
	}
	control, err := clock.ParseControl(text)
	if err != nil || !control.Known() {
		return times, false
	}
	times = gameTimes{control: text, sides: [2]sideTimes{noTimes(), noTimes()}, plies: min(len(moves), 2*spentMoves)}
	w := timekeeper{control: control, timed: [2]clock.Timed{control.First(clock.White), control.First(clock.Black)}, at: from}
	for i := range times.plies {
		times.replies[i] = w.reply(moves[i])
		w.move(i, readingOf(&g.Moves[i]), &times.sides[i%2])
	}
	return times, w.read
}

// timekeeper follows a game's clocks.
type timekeeper struct {
	control clock.Control
	at      bitboard.Position
	last    bitboard.Move
	took    bool // the last move captured
	timed   [2]clock.Timed
	read    bool // some clock was read
}

// move follows the clocks of one ply.
func (w *timekeeper) move(i int, reading clock.Reading, to *sideTimes) {
	side, own := i%2, i/2+1
	w.timed[side] = w.control.After(w.control.Before(w.timed[side], w.timed[1-side]), own, reading, clock.Value{})
	now := &w.timed[side]
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

// reply says what a move answers, and makes it.
func (w *timekeeper) reply(move bitboard.Move) tell.Reply {
	reply := tell.Quiet
	switch {
	case w.took && move.To() == w.last.To():
		reply = tell.Recapture
	case w.at.InCheck():
		reply = tell.EvadesCheck
	case w.took:
		reply = tell.AfterCapture
	}
	w.took = w.at.Piece(move.To()) != bitboard.NoPiece
	w.last = move
	w.at.Make(move)
	return reply
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

// timesLeast is the least that a game's times take where they are spilled: the control
// behind its length, the number of plies, their replies four to a byte, and of each side
// all figures in two bytes, little-endian.
const timesLeast = 1 + 1 + spentMoves/2 + 2*2*(len(leftMoves)+spentMoves)

func (t *gameTimes) append(b []byte) []byte {
	b = append(append(b, uint8(len(t.control))), t.control...)
	b = append(b, uint8(t.plies))
	for i := 0; i < len(t.replies); i += 4 {
		b = append(b, uint8(t.replies[i]|t.replies[i+1]<<2|t.replies[i+2]<<4|t.replies[i+3]<<6))
	}
	for side := range t.sides {
		for _, s := range t.sides[side].left {
			b = binary.LittleEndian.AppendUint16(b, s)
		}
		for _, s := range t.sides[side].spent {
			b = binary.LittleEndian.AppendUint16(b, s)
		}
	}
	return b
}

// timesSize returns how many bytes of b a game's times take; false if there are not so
// many.
func timesSize(b []byte) (int, bool) {
	if len(b) < timesLeast {
		return 0, false
	}
	size := timesLeast + int(b[0])
	return size, size <= len(b)
}

// readTimes reads what append wrote and timesSize has measured.
func readTimes(b []byte) gameTimes {
	var t gameTimes
	t.control, b = string(b[1:1+b[0]]), b[1+b[0]:]
	t.plies, b = min(int(b[0]), len(t.replies)), b[1:]
	for i := range t.replies {
		t.replies[i] = tell.Reply(b[i/4] >> (i % 4 * 2) & 3)
	}
	b = b[len(t.replies)/4:]
	next := func() uint16 {
		v := binary.LittleEndian.Uint16(b)
		b = b[2:]
		return v
	}
	for side := range t.sides {
		for i := range t.sides[side].left {
			t.sides[side].left[i] = next()
		}
		for i := range t.sides[side].spent {
			t.sides[side].spent[i] = next()
		}
	}
	return t
}

// prepared returns how many own moves a side made in preparation: up to the last that was
// more likely from it than not, once the tell says that the side is thinking;
// unknownTime if it never does.
func (t *gameTimes) prepared(side clock.Side) uint16 {
	const even = .5
	control, err := clock.ParseControl(t.control)
	if err != nil {
		return unknownTime
	}
	timed := [2]clock.Timed{control.First(clock.White), control.First(clock.Black)}
	filter, inside := tell.New(control), 0
	for i := range t.plies {
		mover, own := i%2, i/2+1
		spent := t.sides[mover].spent[own-1]
		reading := clock.Reading{Spent: clock.Value{D: inSeconds(spent), OK: spent != unknownTime}}
		timed[mover] = control.After(control.Before(timed[mover], timed[1-mover]), own, reading, clock.Value{})
		now := &timed[mover]
		filter = filter.Next(tell.Move{
			Ply: i + 1, Side: clock.Side(mover), Spent: now.Spent, Quality: now.SpentQuality, Left: now.Left, Reply: t.replies[i],
		})
		if clock.Side(mover) != side {
			continue
		}
		switch verdict, thinking := filter.Standing(side); {
		case verdict == tell.Thinking:
			return uint16(inside)
		case thinking < even:
			inside = own
		}
	}
	return unknownTime
}
