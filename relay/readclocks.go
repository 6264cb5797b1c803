package relay

import (
	"slices"
	"strings"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/pgn"
	"clocktell/relay/tell"
)

// ClockPlan is what is known of a feed's clocks beyond its text.
type ClockPlan struct {
	Control clock.Control // for games whose tags name none; not known: that of the show
	Delay   clock.Delay
	Starts  [2]clock.Value // unequal clocks at the start, as in an armageddon
	Reads   ReadsPlan
}

// ReadsPlan says whether clocks are read before or after the increment.
type ReadsPlan uint8

// The plans. What nothing shows is taken for after.
const (
	ReadsFound  ReadsPlan = iota // as the readings of a game, or of the feed's others, show it
	ReadsAfter                   // after the increment is added
	ReadsBefore                  // before
)

// takeControl takes the time control of a game, from its tags and else from what is
// planned for the feed or the show.
func (next *Board) takeControl(g *pgn.Game, defaults Defaults) {
	control := controlOf(g, defaults, next.start)
	if next.borrowed && next.Control.Known() {
		control = next.Control // a backup is not asked for what is known
	}
	control.Reads = next.Control.Reads
	for side, found := range next.found {
		if found.OK && !control.Starts[side].OK {
			control.Starts[side] = found
		}
	}
	if !control.Same(next.Control) || len(next.Plies) == 0 {
		filter := tell.New(control)
		next.Control, next.filter0 = control, &filter
	}
}

func controlOf(g *pgn.Game, defaults Defaults, start startPosition) clock.Control {
	control, err := clock.ParseControl(g.Tag("TimeControl"))
	switch {
	case err == nil && control.Known():
	case defaults.Clocks.Control.Known():
		control = defaults.Clocks.Control
	default:
		control = defaults.Control
	}
	control.Delay, control.Starts = defaults.Clocks.Delay, defaults.Clocks.Starts
	for side, tag := range []string{"WhiteClock", "BlackClock"} {
		if d, err := clock.ParseReading(g.Tag(tag)); err == nil {
			control.Starts[side] = clock.Value{D: d, OK: true}
			control.Done = (start.halfMove - 1) / 2 // set at an adjournment
		}
	}
	return control
}

// readClocks finds out how the feed writes its clocks, and puts right what stands with
// the wrong side. It returns the first index, at most from, from which on times must be
// worked out again.
func (next *Board) readClocks(before *Board, from int, defaults Defaults) int {
	readings, waited := make([]clock.Reading, len(next.Plies)), make([]clock.Value, len(next.Plies))
	for i := range next.Plies {
		readings[i], waited[i] = next.Plies[i].Reading, next.waited(i)
	}
	next.findStarts(readings)
	next.Control.Reads = next.readsOf(readings, defaults)
	mended, why := next.Control.Mend(readings, waited)
	first := from
	if !next.Control.Same(before.Control) {
		first = 0
	}
	for i := range next.Plies[:first] {
		if next.Plies[i].mended != mended[i] {
			first = i
			break
		}
	}
	if first < from {
		next.Plies = slices.Clone(next.Plies)
	}
	for i := first; i < len(next.Plies); i++ {
		next.Plies[i].mended, next.Plies[i].Mended = mended[i], why[i]
	}
	return first
}

func (next *Board) readsOf(readings []clock.Reading, defaults Defaults) clock.Reads {
	reads := clock.Reads{Step: clock.StepOf(readings)}
	switch defaults.Clocks.Reads {
	case ReadsBefore:
		reads.Before = true
	case ReadsFound:
		before, proven := next.Control.ReadsBefore(readings)
		reads.Before = before
		if !proven {
			reads.Before = defaults.Before
		}
	}
	return reads
}

// resolutionOf returns the smallest step that a ply's time can be known in; 0: as
// usual.
func (next *Board) resolutionOf(ply *Ply) time.Duration {
	if step := next.Control.Reads.Step; step > time.Second && ply.Timed.SpentQuality != clock.QualityEstimated {
		return step
	}
	return 0
}

// liveClock is what the Clock tag of the PGN supplement (draft of 2001) tells: the clock
// that runs while the text is written.
type liveClock struct {
	text   string // of the tag
	of     int    // plies of the game then; 0: it tells nothing
	at     time.Time
	within time.Duration
	spent  time.Duration // by the side on move on its move
}

// liveStep is by how much a Clock tag must move the running clock to be worth a new
// picture.
const liveStep = time.Second

// takeLive takes the Clock tag. It counts if it is the clock of the side on move: the
// supplement warns that it may not be, and a stopped clock (N) tells nothing of when one
// runs.
func (next *Board) takeLive(g *pgn.Game, r Receipt) {
	text := g.Tag("Clock")
	if n := len(next.Plies); text == next.live.text && (next.live.of == n || n == 0) {
		return
	}
	next.live = liveClock{text: strings.Clone(text)}
	side, clockText, _ := strings.Cut(text, "/")
	left, err := clock.ParseReading(clockText)
	last := next.Last(next.Turn())
	if err != nil || len(next.Plies) == 0 || (side == "B") != (next.Turn() == clock.Black) || side != "B" && side != "W" ||
		last.LeftQuality == clock.QualityNone || left > last.Left {
		return
	}
	next.live.of, next.live.at, next.live.within, next.live.spent = len(next.Plies), r.At, r.Within, last.Left-left
}

// liveMoves reports whether a new Clock tag moves the running clock visibly.
func (next *Board) liveMoves(before *Board) bool {
	if next.live == before.live || next.live.of == 0 || next.Over() {
		return false
	}
	moved := *next
	moved.anchor(before, 0)
	return moved.Anchor.Sub(before.Anchor).Abs() >= liveStep
}

// ownMove returns which move of its own side the ply at index i is, from 1.
func ownMove(i int) int { return i/2 + 1 }
