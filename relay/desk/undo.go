package desk

import (
	"errors"
	"slices"
)

// undosMost is how many things can be taken back.
const undosMost = 30

// undo is what side lines and marks were before something was done to them.
type undo struct {
	what  string // in words
	place Place
	fen   string // there
	lines []Move
	marks []Mark
}

func (s *State) keepUndo(what string) {
	s.undos = append(slices.Clip(s.undos[max(0, len(s.undos)-undosMost+1):]), undo{what, s.Place, s.seen.fen, s.lines, s.Marks})
}

// Undoable says what undo would take back; "" nothing.
func (s *State) Undoable() string {
	if n := len(s.undos); n > 0 {
		return s.undos[n-1].what
	}
	return ""
}

// undo takes back what was last done to side lines and marks. What viewers see of it
// stays as long as it is on the air.
func (s *State) undo(_ Act, games Games) error {
	n := len(s.undos)
	if n == 0 {
		return errors.New("there is nothing to take back")
	}
	last := s.undos[n-1]
	needed := []int{s.Air.Move}
	if s.Challenge != nil {
		needed = append(needed, s.Challenge.Line, s.Challenge.Place.Move)
	}
	for _, id := range needed {
		if id != 0 && !slices.ContainsFunc(last.lines, func(m Move) bool { return m.ID == id }) {
			return errors.New("that line is on the air, or the answer of the challenge; take that off first")
		}
	}
	s.undos = s.undos[:n-1]
	s.lines = last.lines
	s.stand(last.place.Ply, last.place.Move, games)
	if last.place.Live {
		_ = s.toLive(Act{}, games)
	}
	s.Marks = nil
	if fen, _ := s.Stand(games); fen == last.fen { // or they would stand on another position
		s.Marks = last.marks
	}
	return nil
}
