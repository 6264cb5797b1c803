package desk

import (
	"slices"
	"time"
)

// autoStays is how long the board on the air stays at least when it follows the
// suggestions by itself: viewers want to see where they are.
const autoStays = 20 * time.Second

func (s *State) followByItself(act Act, _ Games) error {
	s.Auto = toggled(s.Auto, act)
	return nil
}

func (s *State) quiet(act Act, _ Games) error {
	s.Quiet = toggled(s.Quiet, act)
	return nil
}

// followHeat takes the suggestions up, and, if told to, lets the board on the air follow
// what is new among them.
func (s *State) followHeat(games Games, at time.Time) {
	hot := games.Suggestions()
	if !slices.Equal(hot, s.Hot) {
		s.Hot = hot
	}
	if !s.Auto || s.Air.Way != "" || s.Challenge != nil && s.Challenge.State != ChallengeReady {
		return
	}
	first := slices.IndexFunc(hot, func(h Suggestion) bool { return !h.Judged })
	if first < 0 || hot[first].Board == s.Air.Board || !hot[first].At.After(s.hotAt) || at.Sub(s.hotAt) < autoStays {
		return
	}
	s.Air.Board, s.hotAt = hot[first].Board, at
}
