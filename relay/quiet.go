package relay

import "fmt"

// enterShow does what is of the whole show.
func (s *Show) enterShow(e ByHand) (string, error) {
	switch e.Act {
	case ActHold:
		return s.setHold(e)
	case ActRecording:
		return s.markStart(e)
	}
	return s.setQuiet(e)
}

// setQuiet switches quiet mode, in which scenes draw what there is but do not ask for
// the viewers' attention: the producer has it for something else. It returns in words
// what is so now.
func (s *Show) setQuiet(e ByHand) (string, error) {
	if e.Text != "on" && e.Text != "off" {
		return "", fmt.Errorf("quiet is on or off, not %.20q", e.Text)
	}
	if quiet := e.Text == "on"; quiet != s.Quiet {
		s.Quiet = quiet
		s.HeadRev++
	}
	return "quiet mode is " + e.Text, nil
}
