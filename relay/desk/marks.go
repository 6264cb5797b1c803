package desk

import (
	"fmt"
	"slices"
)

// marksMost is how many marks there can be at the same time.
const marksMost = 40

// Meaning is what a mark says.
type Meaning string

// The meanings. Guard is not drawn by people: it comes with the marks of a sentence.
const (
	Attention Meaning = "look"
	Plan      Meaning = "plan"
	Threat    Meaning = "danger"
	Weak      Meaning = "weak"
	Guard     Meaning = "guard"
)

// Mark points at a square, or from one square to another.
type Mark struct {
	Meaning  Meaning
	From, To string // From is "" for a square alone
}

func isSquare(text string) bool {
	return len(text) == 2 && text[0] >= 'a' && text[0] <= 'h' && text[1] >= '1' && text[1] <= '8'
}

// markAs returns what an action of that meaning does: it draws a mark, or takes off the
// same one.
func markAs(meaning Meaning) func(*State, Act, Games) error {
	return func(s *State, act Act, _ Games) error {
		switch {
		case !isSquare(act.To):
			return fmt.Errorf("%q is no square; a square is written e4", act.To)
		case act.From != "" && !isSquare(act.From):
			return fmt.Errorf("%q is no square; a square is written e4", act.From)
		case act.From == act.To:
			act.From = ""
		}
		mark := Mark{meaning, act.From, act.To}
		if i := slices.Index(s.Marks, mark); i >= 0 {
			s.keepUndo("the mark that was taken off")
			s.Marks = slices.Delete(slices.Clone(s.Marks), i, i+1)
			return nil
		}
		return s.mark([]Mark{mark}, "the mark")
	}
}

func (s *State) mark(marks []Mark, what string) error {
	if len(s.Marks)+len(marks) > marksMost {
		return fmt.Errorf("there are %d marks, and there can be %d; clear some", len(s.Marks), marksMost)
	}
	s.keepUndo(what)
	s.Marks = append(slices.Clip(s.Marks), marks...)
	return nil
}

// markFact makes marks of what a sentence points at: on the live board, because of that
// it speaks.
func (s *State) markFact(act Act, games Games) error {
	marks, board, err := games.Pointed(act.Prompt, s.Place.Board)
	if err != nil {
		return err
	}
	if board != s.Place.Board || !s.Place.Live {
		if err := s.lookAt(Act{Board: board}, games); err != nil {
			return err
		}
		if err := s.toLive(act, games); err != nil {
			return err
		}
	}
	fresh := slices.DeleteFunc(slices.Clone(marks), func(m Mark) bool { return slices.Contains(s.Marks, m) })
	return s.mark(fresh, "the marks of a sentence")
}

func (s *State) clearMarks(Act, Games) error {
	if len(s.Marks) > 0 {
		s.keepUndo("the marks that were cleared")
	}
	s.Marks = nil
	return nil
}

func (s *State) keepMarks(act Act, _ Games) error {
	s.Keep = toggled(s.Keep, act)
	return nil
}
