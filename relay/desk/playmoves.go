package desk

import (
	"errors"
	"fmt"
	"strings"
)

// movesMost is how many moves are played at one go.
const movesMost = 40

// playMoves plays moves behind each other, as one thing to be taken back.
func (s *State) playMoves(act Act, games Games) error {
	moves := strings.Fields(act.Text)
	if len(moves) == 0 || len(moves) > movesMost || act.Steps < 0 || act.Steps > len(moves) {
		return fmt.Errorf("there are 1 to %d moves to play, and the desk stands behind one of them", movesMost)
	}
	before, last := *s, s.last
	switch {
	case act.From == "begin":
		if err := s.goTo(Act{Ply: act.Ply, Move: act.Move}, games); err != nil {
			return err
		}
	case act.From != "":
		return errors.New("from is begin, or left out")
	}
	var stops []Place
	for _, san := range moves {
		if err := s.play(Act{SAN: san}, games); err != nil {
			return err
		}
		stops = append(stops, s.Place)
	}
	if s.last != last { // some of them are new: they go together
		before.keepUndo("the line")
		s.undos = before.undos
	}
	if act.Steps > 0 {
		s.stand(stops[act.Steps-1].Ply, stops[act.Steps-1].Move, games)
	}
	return nil
}
