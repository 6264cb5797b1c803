package desk

import (
	"fmt"
	"slices"
)

// Limits of side lines.
const (
	linesMost = 2000 // moves of side lines in a show
	lineMost  = 60   // moves of one side line
	nameMost  = 60   // characters of a name
)

func (s *State) add(m Move, games Games) error {
	if len(s.lines) >= linesMost {
		s.forget(games)
	}
	switch {
	case len(s.lines) >= linesMost:
		return fmt.Errorf("there are %d moves of side lines, which is as many as can be; drop some", linesMost)
	case len(s.path(m.After)) >= lineMost:
		return fmt.Errorf("a side line has at most %d moves", lineMost)
	}
	s.keepUndo("the move " + m.SAN)
	s.last++
	m.ID = s.last
	s.lines = append(slices.Clip(s.lines), m)
	s.stand(m.Ply, m.ID, games)
	return nil
}

// forget drops the side lines of games that are no longer on a board, which nobody can see
// any more, but for what is on the air.
func (s *State) forget(games Games) {
	aired := s.move(s.Air.Move)
	s.lines = slices.DeleteFunc(slices.Clone(s.lines), func(m Move) bool {
		game := games.Game(m.Board)
		gone := game == nil || game.Number() != m.Game
		return gone && (aired == nil || aired.Board != m.Board || aired.Game != m.Game)
	})
}
