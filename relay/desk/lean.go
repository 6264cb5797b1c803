package desk

import "errors"

// Verdict is what an engine says of a position, in words that viewers may be shown.
type Verdict struct {
	Side     string // that stands better: "white", "black", or "" for level
	Size     int    // 0 level, to 5: mate is seen
	Short    string // a few words beside a mark
	Sentence string
	Final    bool // the engine has come to its planned end
}

// Lean is the marker on the scene of a board that says which way the engine leans. It is
// off unless somebody puts it there, and leaves with the position.
type Lean struct {
	Board int // 0: it is off
	Game  int // as Place.Game
	Keep  bool
	FEN   string  // of the position it is on
	Shown Verdict // with an empty Short nothing is drawn: the engine has not settled
}

// ErrHidesEngine says that what an engine says of a board must not get out now.
var ErrHidesEngine = errors.New("viewers are asked for this board's next move, and the engine must not give it away")

// Sees returns the position that viewers see of a board: that of the side line or of the
// game that the desk shows in its place, else the live one; false where there is none, or
// where it changes by itself.
func (s *State) Sees(board int, games Games) (fen string, ok bool) {
	game := games.Game(board)
	if game == nil {
		return "", false
	}
	if on := s.Shown; on != nil && on.Board == board && !on.Live && on.Way != WayText {
		if on.Way == WayWhole {
			return "", false
		}
		if n := len(on.Moves); n > 0 {
			return on.Moves[n-1].FEN, true
		}
		return on.FEN, true
	}
	return game.Position(game.Plies()).String(), true
}

// judged returns what the engine says of what viewers see of the desk's board.
func (s *State) judged(games Games) (Verdict, string, error) {
	board := s.Place.Board
	if _, err := s.game(games); err != nil {
		return Verdict{}, "", err
	}
	if c := s.Hiding(); c != nil && c.Place.Board == board {
		return Verdict{}, "", ErrHidesEngine
	}
	fen, ok := s.Sees(board, games)
	if !ok {
		return Verdict{}, "", errors.New("a side line is being played through; put a position on the air, or go back to the live game")
	}
	if at, _ := s.Stand(games); at != fen {
		return Verdict{}, "", errors.New("viewers do not see the position that you look at; put it on the air, or go to the live game")
	}
	v, err := games.Verdict(board, fen)
	return v, fen, err
}

// lean puts the marker on the scene of the desk's board, or takes it off.
func (s *State) lean(act Act, games Games) error {
	if !toggled(s.Lean.Board != 0 && s.Lean.Board == s.Place.Board, act) {
		if s.Lean.Board == 0 {
			return errors.New("no marker is on the air")
		}
		s.Lean = Lean{Keep: s.Lean.Keep}
		return nil
	}
	v, fen, err := s.judged(games)
	if err != nil {
		return err
	}
	s.Lean = Lean{Board: s.Place.Board, Game: s.Place.Game, Keep: s.Lean.Keep, FEN: fen, Shown: v}
	return nil
}

func (s *State) keepLean(act Act, _ Games) error {
	s.Lean.Keep = toggled(s.Lean.Keep, act)
	return nil
}

// sayVerdict lets through what the show then puts on the air as a sentence.
func (s *State) sayVerdict(act Act, games Games) error {
	if act.On != nil && !*act.On {
		return nil
	}
	_, _, err := s.judged(games)
	return err
}

// followLean takes the marker off when viewers see another position, or brings it up to
// that where it is kept; a challenge takes it off whatever was chosen.
func (s *State) followLean(games Games) {
	l := s.Lean
	if l.Board == 0 {
		return
	}
	game := games.Game(l.Board)
	c := s.Hiding()
	if game == nil || game.Number() != l.Game || c != nil && c.Place.Board == l.Board {
		s.Lean = Lean{Keep: l.Keep}
		return
	}
	fen, ok := s.Sees(l.Board, games)
	if (!ok || fen != l.FEN) && !l.Keep {
		s.Lean = Lean{}
		return
	}
	if fen != l.FEN {
		s.Lean.FEN, s.Lean.Shown = fen, Verdict{}
	}
	v, err := games.Verdict(l.Board, fen)
	switch {
	case !ok, err != nil && !l.Keep:
		s.Lean.Shown = Verdict{}
	case err != nil:
	case s.Lean.Shown.Short == "" || v.far(s.Lean.Shown):
		s.Lean.Shown = v
	}
}

// far reports whether a verdict is to be shown in place of another of the same position:
// what viewers look at does not waver with every ply that the engine gets deeper.
func (v Verdict) far(shown Verdict) bool {
	return v.Final || v.Side != shown.Side || max(v.Size-shown.Size, shown.Size-v.Size) > 1
}
