package desk

import (
	"errors"
	"fmt"
	"slices"
)

// stand puts the desks to a place on their board.
func (s *State) stand(ply, move int, games Games) {
	was := s.Place
	s.Place.Ply, s.Place.Move = ply, move
	game := games.Game(s.Place.Board)
	s.Place.Live = move == 0 && game != nil && ply == game.Plies()
	if s.Place != was && !s.Keep {
		s.Marks = nil
	}
}

func (s *State) back(_ Act, games Games) error {
	switch m := s.move(s.Place.Move); {
	case m != nil:
		s.stand(m.Ply, m.After, games)
	case s.Place.Ply > 0:
		s.stand(s.Place.Ply-1, 0, games)
	default:
		return errors.New("this is the start")
	}
	return nil
}

// forward goes on in the side line, the one entered first, or in the game.
func (s *State) forward(_ Act, games Games) error {
	game, err := s.game(games)
	if err != nil {
		return err
	}
	if s.Place.Move != 0 {
		i := slices.IndexFunc(s.lines, func(m Move) bool { return m.After == s.Place.Move })
		if i < 0 {
			return errors.New("the side line ends here")
		}
		s.stand(s.lines[i].Ply, s.lines[i].ID, games)
		return nil
	}
	if s.Place.Ply >= game.Plies() {
		return errors.New("this is the live position")
	}
	s.stand(s.Place.Ply+1, 0, games)
	return nil
}

func (s *State) toStart(_ Act, games Games) error {
	if path := s.path(s.Place.Move); len(path) > 0 {
		s.stand(path[0].Ply, 0, games)
		return nil
	}
	s.stand(0, 0, games)
	return nil
}

func (s *State) toLive(_ Act, games Games) error {
	game, err := s.game(games)
	if err != nil {
		return err
	}
	s.stand(game.Plies(), 0, games)
	return nil
}

// otherLine goes to the next move that was shown in place of the one the desks stand
// behind; after the last comes the first. From the game it goes into the first side line
// that departs there.
func (s *State) otherLine(_ Act, games Games) error {
	if m := s.move(s.Place.Move); m != nil {
		others := s.siblings(m)
		i := slices.IndexFunc(others, func(o Move) bool { return o.ID == m.ID })
		next := others[(i+1)%len(others)]
		s.stand(next.Ply, next.ID, games)
		return nil
	}
	for i := range s.lines {
		if m := &s.lines[i]; m.After == 0 && m.departsAt(s.Place) {
			s.stand(m.Ply, m.ID, games)
			return nil
		}
	}
	return errors.New("no side line departs here")
}

func (s *State) goTo(act Act, games Games) error {
	game, err := s.game(games)
	if err != nil {
		return err
	}
	if act.Move != 0 {
		m := s.move(act.Move)
		if m == nil || m.Board != s.Place.Board || m.Game != s.Place.Game {
			return fmt.Errorf("there is no move %d of a side line on board %d", act.Move, s.Place.Board)
		}
		s.stand(m.Ply, m.ID, games)
		return nil
	}
	if act.Ply < 0 || act.Ply > game.Plies() {
		return fmt.Errorf("the game has %d plies, so there is no ply %d", game.Plies(), act.Ply)
	}
	s.stand(act.Ply, 0, games)
	return nil
}

func (s *State) turn(act Act, _ Games) error {
	s.Turned = toggled(s.Turned, act)
	return nil
}

func (s *State) lookAt(act Act, games Games) error {
	if act.Board < 1 || act.Board > games.Boards() {
		return fmt.Errorf("there is no board %d; the boards are 1 to %d", act.Board, games.Boards())
	}
	if act.Board == s.Place.Board {
		return nil
	}
	// Viewers see what the desk sees only of the board that was put on the air.
	if s.Air.Way == WayFollow {
		s.Air = Air{Board: s.Air.Board}
	}
	game := games.Game(act.Board)
	s.Place = Place{Board: act.Board, Live: true}
	if game != nil {
		s.Place.Game, s.Place.Ply = game.Number(), game.Plies()
	}
	s.Marks, s.undos = nil, nil
	return nil
}

func (s *State) nextBoard(act Act, games Games) error     { return s.boardBy(1, act, games) }
func (s *State) previousBoard(act Act, games Games) error { return s.boardBy(-1, act, games) }

func (s *State) boardBy(step int, act Act, games Games) error {
	n := games.Boards()
	if n == 0 {
		return errors.New("there is no board yet")
	}
	act.Board = (s.Place.Board-1+step+n)%n + 1
	return s.lookAt(act, games)
}

func (s *State) goWhereItBurns(act Act, games Games) error {
	hot := games.Suggestions()
	if len(hot) == 0 {
		return errors.New("nothing burns on any board")
	}
	act.Board = hot[0].Board
	return s.lookAt(act, games)
}
