package desk

import (
	"errors"
	"fmt"
)

var errWho = errors.New("say who you are")

func (s *State) lead(act Act, _ Games) error {
	switch {
	case act.Who == "":
		return errWho
	case s.Lead != "" && s.Lead != act.Who && !act.Over:
		return fmt.Errorf("%s leads the desk; ask for the lead, or take it over", s.Lead)
	}
	s.Lead = act.Who
	if s.Asks == act.Who {
		s.Asks = ""
	}
	return nil
}

func (s *State) askForLead(act Act, _ Games) error {
	switch {
	case act.Who == "":
		return errWho
	case s.Lead == act.Who:
		return errors.New("you lead already")
	case s.Asks != "" && s.Asks != act.Who:
		return fmt.Errorf("%s has asked already", s.Asks)
	}
	s.Asks = act.Who
	return nil
}

func (s *State) handOver(act Act, _ Games) error {
	switch {
	case act.Who != "" && s.Lead != "" && act.Who != s.Lead:
		return fmt.Errorf("%s leads the desk, so only %s can hand it over", s.Lead, s.Lead)
	case act.Text != "" && !legible(act.Text, WhoMost):
		return fmt.Errorf("a name has 1 to %d characters", WhoMost)
	}
	s.Lead = act.Text
	if s.Lead == "" {
		s.Lead = s.Asks
	}
	if s.Asks == s.Lead {
		s.Asks = ""
	}
	return nil
}
