package desk

import "time"

// followChallenge drops a prepared challenge whose game is no longer on its board.
func (s *State) followChallenge(games Games) {
	c := s.Challenge
	if c == nil || c.State != ChallengeReady {
		return
	}
	if game := games.Game(c.Place.Board); game == nil || game.Number() != c.Place.Game {
		s.Challenge = nil
	}
}

// Due returns when time alone next changes the state; zero: never.
func (s *State) Due() time.Time {
	if s.Challenge == nil {
		return time.Time{}
	}
	return s.Challenge.Until
}

// Advance returns the state at t: a challenge that was forgotten ends.
func (s *State) Advance(t time.Time) *State {
	if due := s.Due(); due.IsZero() || due.After(t) {
		return s
	}
	next := *s
	next.Challenge = nil
	next.Rev++
	next.AirRev++
	return &next
}
