package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"time"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/config"
	"clocktell/relay/reference"
)

// library looks up in the reference what is played on the boards.
type library struct {
	index  *reference.Index // nil: none
	filter reference.Filter
	state  relay.Reference
	now    func() time.Time
	took   func(time.Duration) // told of every lookup
	log    *slog.Logger
	failed error            // of the last lookup that failed
	answer reference.Answer // used again
}

// openLibrary opens the reference that the configuration names. One that cannot be used
// is told on the panel and keeps no show from running.
func openLibrary(c config.Reference, now func() time.Time, log *slog.Logger) *library {
	l := &library{now: now, log: log, took: func(time.Duration) {}, filter: filterOf(c), state: relay.Reference{Counted: c.Counted()}}
	if c.File == "" {
		return l
	}
	index, err := openIndex(c.File)
	if err != nil {
		log.Error("the reference cannot be used", "err", err)
		l.state.Fault = err.Error()
		return l
	}
	l.index, l.state.Games, l.state.Depth = index, index.Games(), index.Depth()
	return l
}

// errHashing says that a reference knows positions by other numbers than we do.
var errHashing = errors.New("it was built by another version of clocktell: build it again")

// openIndex opens a reference that numbers positions as we do.
func openIndex(file string) (*reference.Index, error) {
	index, err := reference.Open(file)
	if err != nil {
		return nil, err
	}
	if start := bitboard.Start(); index.Head().Hashing != start.Hash() {
		return nil, errors.Join(fmt.Errorf("%s: %w", file, errHashing), index.Close())
	}
	return index, nil
}

func filterOf(c config.Reference) reference.Filter {
	f := reference.Filter{MinRating: c.MinRating, FromYear: c.FromYear, ToYear: c.ToYear, OnlyOverTheBoard: c.OverTheBoard}
	for _, class := range []clock.Class{clock.ClassRapid, clock.ClassBlitz, clock.ClassStandard} {
		if class.String() == c.TimeClass {
			f.Class = class
		}
	}
	return f
}

// close gives the file up; a nil library has none.
func (l *library) close() error {
	if l == nil || l.index == nil {
		return nil
	}
	return l.index.Close()
}

// run answers what boards ask until ctx ends; a nil library, of a replay, says nothing. It stands beside the loop: moves are on
// the air before it has heard of them, and its answers go the way of all events.
func (l *library) run(ctx context.Context, r *relay.Relay, events chan<- relay.Event) error {
	if l == nil {
		return nil
	}
	send := func(e relay.Event) bool {
		select {
		case events <- e:
			return true
		case <-ctx.Done():
			return false
		}
	}
	if !send(relay.ReferenceAttached{At: l.now(), Reference: l.state}) || l.index == nil {
		return nil
	}
	changes := r.Subscribe()
	defer changes.Close()
	asked := make(askedBefore)
	for {
		select {
		case <-changes.C:
		case <-ctx.Done():
			return nil
		}
		for _, b := range r.Show().Boards {
			for _, e := range l.asks(b, asked) {
				if !send(e) {
					return nil
				}
			}
		}
	}
}

// asks looks up what a board lacks and has not been asked for, and returns what there is to
// tell the show.
func (l *library) asks(b *relay.Board, asked askedBefore) []relay.Event {
	var out []relay.Event
	e := l.answers(b, asked.fresh(b, l.index.Depth()))
	e.Habits = l.habits(asked.freshHabits(b))
	if len(e.Answers)+len(e.Habits) > 0 {
		out = append(out, e)
	}
	if l.fails() {
		out = append(out, relay.ReferenceAttached{At: l.now(), Reference: l.state})
	}
	return out
}

// fails notes, the first time that a lookup failed, that the reference has a fault, and
// reports whether that is news. What it can answer, it still does.
func (l *library) fails() bool {
	if l.failed == nil || l.state.Fault != "" {
		return false
	}
	l.log.Error("the reference fails in the middle of the show", "err", l.failed)
	l.state.Fault = l.failed.Error()
	return true
}

// answers looks up positions of a board.
func (l *library) answers(b *relay.Board, positions []relay.Asked) relay.ReferenceAnswered {
	e := relay.ReferenceAnswered{Board: b.Number, Game: b.Game, From: l.state.Name()}
	for _, p := range positions {
		began := time.Now()
		if err := l.index.Lookup(p.Place, l.filter, &l.answer); err != nil {
			l.failed = err // the file is damaged there: the position stays unanswered, which claims nothing
			continue
		}
		e.Answers = append(e.Answers, relay.KnownPosition{Ply: p.Ply, Place: p.Place, Known: l.known(b.Place(p.Ply))})
		l.took(time.Since(began))
	}
	e.At = l.now()
	return e
}

// movesKnown is how many of a position's moves reach the show.
const movesKnown = 6

// known says an answer in the words of the show.
func (l *library) known(place *bitboard.Position) relay.Known {
	a := &l.answer
	known := relay.Known{Games: a.Games, White: a.White, Draws: a.Draws, Black: a.Black, All: a.Unfiltered}
	if a.Games > 0 {
		known.Last = l.game(a.Last, a.LastMove, place)
	}
	for _, m := range a.Moves[:min(len(a.Moves), movesKnown)] {
		move := relay.KnownMove{
			SAN: place.SAN(bitboard.Move(m.Move)), Games: m.Games, White: m.White, Draws: m.Draws, Black: m.Black,
			BestRating: m.BestRating, MeanRating: m.MeanRating, LastYear: m.LastYear,
		}
		if len(m.Examples) > 0 {
			move.Example = l.game(m.Examples[0], m.Move, place)
		}
		known.Moves = append(known.Moves, move)
	}
	return known
}

// pgnResults are the results as PGN writes them.
var pgnResults = [...]string{
	reference.ResultUnknown: "*", reference.WhiteWon: "1-0", reference.Drawn: "1/2-1/2", reference.BlackWon: "0-1",
}

func (l *library) game(id reference.GameID, went uint16, place *bitboard.Position) relay.KnownGame {
	g, err := l.index.Game(id)
	if err != nil {
		return relay.KnownGame{}
	}
	known := relay.KnownGame{
		White: g.White, Black: g.Black, WhiteRating: g.WhiteRating, BlackRating: g.BlackRating, Event: g.Event, Year: g.Year,
		Result: pgnResults[g.Result],
	}
	if went != 0 {
		known.Went = place.SAN(bitboard.Move(went))
	}
	return known
}

// askedBefore remembers which positions of a board have been asked about at which
// revision of it, so that none is asked twice while its answer is on the way.
type askedBefore map[string]uint64

const (
	askedMost  = 10_000
	askedAgain = 4 // revisions after which an answer must have been lost to a correction
)

func (a askedBefore) fresh(b *relay.Board, depth int) []relay.Asked {
	var out []relay.Asked
	for _, p := range b.Unanswered(depth) {
		if a.first(b, fmt.Sprintf("%d %d %d %x", b.Number, b.Game, p.Ply, p.Place)) {
			out = append(out, p)
		}
	}
	return out
}

func (a askedBefore) freshHabits(b *relay.Board) []relay.AskedHabit {
	var out []relay.AskedHabit
	for _, p := range b.UnansweredHabits() {
		if a.first(b, fmt.Sprintf("%d %d %v %v %s", b.Number, b.Game, p.Side, p.Class, p.Name)) {
			out = append(out, p)
		}
	}
	return out
}

// first notes a question, and reports whether it is to be asked.
func (a askedBefore) first(b *relay.Board, key string) bool {
	if at, asked := a[key]; asked && b.Rev < at+askedAgain {
		return false
	}
	if len(a) >= askedMost {
		clear(a)
	}
	a[key] = b.Rev
	return true
}
