// Package desk is what the desks of a show share: where they stand in a game, side
// lines, marks, what of it viewers see, and the question put to them.
//
// State is never changed: Do, Follow and Advance return the next one. actions.go is the
// table of everything that can be done, steps.go, lines.go, marks.go, air.go, challenge.go
// and lead.go do it; refusal.go says why a move cannot be played.
package desk

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/notnil/chess"
)

// State is what the desks share.
type State struct {
	Rev       uint64
	Lead      string // whose acts count; "" of whoever comes first
	Asks      string // who asks for the lead; "" nobody
	Place     Place
	Turned    bool // Black below
	Marks     []Mark
	Keep      bool // marks stay when the next move comes
	Air       Air
	Challenge *Challenge // nil: none is prepared
	Auto      bool       // the board on the air follows the suggestions
	Hot       []Suggestion
	Quiet     bool // scenes tell no news of themselves
	Lean      Lean

	AirRev uint64 // of what viewers are shown: Air.Board, Shown, Lean.Shown and a challenge that is asked
	Shown  *Shown // in place of a live board; nil: nothing

	seen  seen
	lines []Move    // of all games, in the order in which they were entered
	last  int       // ID given last
	undos []undo    // oldest first
	hotAt time.Time // when Auto chose last
}

// Place is where the desks stand. The zero Place is at no board.
type Place struct {
	Board int
	Game  int  // which of the board's games, as Game.Number has it
	Live  bool // they follow the game
	Ply   int  // plies of the game up to there, or to where the side line departs
	Move  int  // the side line's move that they stand behind; 0: in the game
}

// Game is what a desk needs of the game on a board.
type Game interface {
	Number() int                      // how many games the board has shown before this one
	Plies() int                       // played
	HalfMove(ply int) int             // number of the ply at that index, counted from White's first move of the game
	Position(ply int) *chess.Position // after so many plies; callers change nothing
	FEN(ply int) string               // of that position
	SAN(ply int) string               // of the ply at that index
	Squares(ply int) (from, to string)
}

// Games knows the games and what else of the show desks can act on.
type Games interface {
	Boards() int
	Game(board int) Game // nil: there is none
	// Pointed returns what a sentence points at, and its board; with an empty key the
	// first of that board that points at something.
	Pointed(key string, board int) ([]Mark, int, error)
	Suggestions() []Suggestion // the most urgent first
	Quiet() bool
	// Verdict returns what the engine says of a position that viewers see of a board; the
	// error says why that cannot be shown.
	Verdict(board int, fen string) (Verdict, error)
}

// Suggestion is a board that something happens on.
type Suggestion struct {
	Board  int
	Kind   string // of its alert
	Side   string
	Reason string
	At     time.Time
	Judged bool // an engine's judgement alone: it moves nothing that viewers see
}

// New returns the state before anything has been done.
func New() *State { return &State{Rev: 1, AirRev: 1, Place: Place{Live: true}} }

// Limits of what is entered, in characters.
const (
	WhoMost  = 40
	TextMost = 160
)

// Do returns the state after an act, and what the show log says of it. The error is for
// whoever did it; nothing has happened then.
func (s *State) Do(act Act, games Games) (*State, string, error) {
	i := slices.IndexFunc(Actions, func(a Action) bool { return a.Name == act.Action })
	if i < 0 {
		return s, "", fmt.Errorf("there is no action %q; GET /api/actions lists them", act.Action)
	}
	if act.Who != "" && !legible(act.Who, WhoMost) {
		return s, "", fmt.Errorf("a name has 1 to %d characters", WhoMost)
	}
	action := &Actions[i]
	if err := s.mayDo(action, act); err != nil {
		return s, "", err
	}
	next := *s
	if next.Lead == "" && act.Who != "" && action.Group != GroupLead {
		next.Lead = act.Who
	}
	if err := action.do(&next, act, games); err != nil {
		return s, "", err
	}
	next.Rev++
	next.look(next.fen(games), games)
	next.show(s, games)
	return &next, next.told(action, act), nil
}

// mayDo refuses what only the one who leads may do.
func (s *State) mayDo(action *Action, act Act) error {
	if action.Group == GroupLead || act.Who == "" || s.Lead == "" || s.Lead == act.Who {
		return nil
	}
	return fmt.Errorf("%s leads the desk; ask for the lead, or take it over", s.Lead)
}

// told is what the show log says of an act besides its name.
func (s *State) told(action *Action, act Act) string {
	words := []string{action.Title}
	for _, w := range []string{act.SAN, act.From, act.To, act.Text} {
		if w != "" {
			words = append(words, w)
		}
	}
	return strings.Join(words, " ")
}

// Follow returns the state as it is after something has happened to the games.
func (s *State) Follow(games Games, at time.Time) *State {
	next := *s
	if next.Place.Board == 0 && games.Boards() > 0 {
		next.Place = Place{Board: 1, Live: true}
	}
	if next.Air.Board == 0 {
		next.Air.Board = next.Place.Board
	}
	fen := next.followGame(games)
	next.followAir(games)
	next.followChallenge(games)
	next.followHeat(games, at)
	next.Quiet = games.Quiet()
	next.look(fen, games)
	next.show(s, games)
	if next.same(s) {
		return s
	}
	next.Rev++
	return &next
}

func (s *State) same(o *State) bool {
	return s.Place == o.Place && s.seen == o.seen && slices.Equal(s.Marks, o.Marks) && s.Air == o.Air && s.Challenge == o.Challenge &&
		slices.Equal(s.Hot, o.Hot) && s.Quiet == o.Quiet && s.Lean == o.Lean && s.AirRev == o.AirRev
}

// followGame moves the place along with its game. Marks go with the next move, unless
// they are kept; they stay where they were drawn, so not on another position. It returns
// the position at the place.
func (s *State) followGame(games Games) string {
	game := games.Game(s.Place.Board)
	if game == nil {
		return s.fen(games)
	}
	was := s.Place
	if was.Game != game.Number() {
		s.Place = Place{Board: was.Board, Game: game.Number(), Live: true}
		s.undos = nil
		if was.Board == s.Air.Board {
			s.Air.Way = ""
		}
	}
	if s.Place.Live || s.Place.Ply > game.Plies() && s.Place.Move == 0 {
		s.Place.Ply, s.Place.Live = game.Plies(), true
	}
	fen := s.fen(games)
	if (s.Place != was || fen != s.seen.fen) && was.Board != 0 && (!s.Keep || s.Place.Game != was.Game) {
		s.Marks = nil
	}
	return fen
}

// seen is what the desks see of the games besides: it changes when a game is corrected,
// although they stand where they stood.
type seen struct {
	fen    string // at the place
	played bool   // the move asked for has been played
	adrift string // IDs of side lines whose departure was not reached
}

func (s *State) look(fen string, games Games) {
	s.seen = seen{fen: fen, played: s.Played(games)}
	game := games.Game(s.Place.Board)
	for _, m := range s.Lines() {
		if m.Adrift(game) {
			s.seen.adrift += fmt.Sprint(m.ID, " ")
		}
	}
}

// legible reports a text that can be shown: some, and no more than that many characters.
func legible(text string, most int) bool {
	return strings.TrimSpace(text) != "" && utf8.RuneCountInString(text) <= most && !strings.ContainsFunc(text, unicode.IsControl)
}

var errNoGame = errors.New("there is no game on that board")

// game returns the game at the place.
func (s *State) game(games Games) (Game, error) {
	if game := games.Game(s.Place.Board); game != nil {
		return game, nil
	}
	return nil, errNoGame
}

// toggled returns what a switch is after an act.
func toggled(on bool, act Act) bool {
	if act.On != nil {
		return *act.On
	}
	return !on
}
