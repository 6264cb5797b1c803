package desk

import (
	"errors"
	"reflect"
	"time"
)

// StepEvery is the time between two moves of a side line that is played through.
const StepEvery = 1500 * time.Millisecond

// Way is how something of the desk is shown.
type Way string

// The ways; "" nothing of the desk is shown.
const (
	WayFollow Way = "follow" // viewers see what the desk sees, step by step
	WayWhole  Way = "whole"  // a side line is played through
	WayText   Way = "text"   // a side line is written, and the board stays live
)

// Air is what of the desk is on the air.
type Air struct {
	Board int // that scenes show which follow the desk
	Way   Way
	Since time.Time
	Move  int // whole and text: the last move of the side line
}

// Shown is a position, or a side line, that viewers see in place of a live board.
type Shown struct {
	Board  int
	Way    Way
	Ply    int    // plies of the game up to where the side line departs, or to the position
	FEN    string // of that position
	Last   *Step  // that led there; nil at the start
	Moves  []Step // of the side line up to the position shown
	Name   string
	At     time.Time
	Live   bool // only the marks are the desk's
	Turned bool
	Marks  []Mark
}

func (s *State) putOnAir(act Act, games Games) error {
	if _, err := s.game(games); err != nil {
		return err
	}
	if s.asking() {
		return errAsking
	}
	s.Air = Air{Board: s.Place.Board, Way: WayFollow, Since: act.At}
	return nil
}

// airAs returns what an action does that shows a side line in that way.
func airAs(way Way) func(*State, Act, Games) error {
	return func(s *State, act Act, games Games) error {
		m, err := s.lineMeant(act)
		if err != nil {
			return err
		}
		if s.asking() {
			return errAsking
		}
		s.Air = Air{Board: m.Board, Way: way, Since: act.At, Move: m.ID}
		return nil
	}
}

func (s *State) takeOffAir(Act, Games) error {
	if s.Air.Way == "" {
		return errors.New("nothing of the desk is on the air")
	}
	s.Air = Air{Board: s.Air.Board}
	return nil
}

// show works out what viewers are shown after was.
func (s *State) show(was *State, games Games) {
	s.Shown = s.shown(games)
	if reflect.DeepEqual(s.Shown, was.Shown) {
		s.Shown = was.Shown
	}
	s.followLean(games)
	if s.Shown != was.Shown || s.Air.Board != was.Air.Board || s.onAir() != was.onAir() || s.Leans() != was.Leans() {
		s.AirRev++
	}
}

// Leans returns what of the marker viewers are shown; with Board 0 nothing.
func (s *State) Leans() Lean {
	if s.Lean.Shown.Short == "" {
		return Lean{}
	}
	return Lean{Board: s.Lean.Board, Shown: s.Lean.Shown}
}

// onAir returns the challenge that viewers know of, nil for none.
func (s *State) onAir() *Challenge {
	if s.Challenge == nil || s.Challenge.State == ChallengeReady {
		return nil
	}
	return s.Challenge
}

// followAir takes a side line off the air whose game is no longer on its board.
func (s *State) followAir(games Games) {
	m := s.move(s.Air.Move)
	if m == nil {
		return
	}
	if game := games.Game(m.Board); game == nil || game.Number() != m.Game {
		s.Air = Air{Board: s.Air.Board}
	}
}

// shown returns what viewers see in place of a live board, nil for nothing.
func (s *State) shown(games Games) *Shown {
	place, marks := s.Place, s.Marks
	switch s.Air.Way {
	case "":
		return nil
	case WayWhole, WayText:
		m := s.move(s.Air.Move)
		if m == nil {
			return nil
		}
		place, marks = Place{Board: m.Board, Game: m.Game, Ply: m.Ply, Move: m.ID}, nil
	}
	game := games.Game(place.Board)
	if game == nil || game.Number() != place.Game || place.Live && len(marks) == 0 {
		return nil
	}
	shown := &Shown{Board: place.Board, Way: s.Air.Way, At: s.Air.Since, Live: place.Live, Turned: s.Turned, Marks: marks}
	s.departure(shown, place, game)
	return shown
}

// departure fills in where in the game the position shown is, or its side line departs.
func (s *State) departure(shown *Shown, place Place, game Game) {
	shown.Ply = min(place.Ply, game.Plies())
	shown.FEN, shown.Last = game.FEN(shown.Ply), stepAt(game, shown.Ply)
	path := s.path(place.Move)
	if len(path) == 0 {
		return
	}
	shown.Moves, shown.Name = steps(path), s.nameOf(place.Move)
	if path[0].Adrift(game) {
		shown.Ply, shown.FEN, shown.Last = place.Ply, path[0].from.String(), nil
	}
}

// nameOf returns the name of the side line that a move belongs to, the nearest there is.
func (s *State) nameOf(id int) string {
	for m := s.move(id); m != nil; m = s.move(m.After) {
		if m.Name != "" {
			return m.Name
		}
	}
	return ""
}

// stepAt returns the ply of a game that led to where it was after so many; nil at its
// start.
func stepAt(game Game, plies int) *Step {
	if plies == 0 {
		return nil
	}
	from, to := game.Squares(plies - 1)
	return &Step{Number: game.HalfMove(plies - 1), SAN: game.SAN(plies - 1), From: from, To: to, FEN: game.FEN(plies)}
}

// Stand returns the position at the place and the move that led there, nil at the start;
// an empty FEN where there is no game.
func (s *State) Stand(games Games) (fen string, last *Step) {
	if m := s.move(s.Place.Move); m != nil {
		return m.FEN, &m.Step
	}
	game := games.Game(s.Place.Board)
	if game == nil || s.Place.Ply > game.Plies() {
		return "", nil
	}
	return game.FEN(s.Place.Ply), stepAt(game, s.Place.Ply)
}

// fen returns the position at the place, as Stand does.
func (s *State) fen(games Games) string {
	if m := s.move(s.Place.Move); m != nil {
		return m.FEN
	}
	game := games.Game(s.Place.Board)
	if game == nil || s.Place.Ply > game.Plies() {
		return ""
	}
	return game.FEN(s.Place.Ply)
}
