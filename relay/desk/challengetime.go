package desk

import "time"

// wasPlayed reports that the game went on from the position of the question.
func (c *Challenge) wasPlayed(game Game) bool {
	return c.Place.Move == 0 && game != nil && game.Number() == c.Place.Game && game.Plies() > c.Place.Ply &&
		game.Position(c.Place.Ply).String() == c.FEN
}

// Played reports that the game has gone on from the position of the question, so that the
// move played can be revealed.
func (s *State) Played(games Games) bool {
	c := s.Challenge
	return c != nil && (c.Played != nil || c.wasPlayed(games.Game(c.Place.Board)))
}

// followChallenge drops a prepared challenge whose game is no longer on its board, and
// remembers what was played from the position of one that is asked.
func (s *State) followChallenge(games Games) {
	c := s.Challenge
	if c == nil {
		return
	}
	game := games.Game(c.Place.Board)
	switch {
	case c.State == ChallengeReady && (game == nil || game.Number() != c.Place.Game):
		s.Challenge = nil
	case c.State == ChallengeAsked && c.wasPlayed(game):
		if step := stepAt(game, c.Place.Ply+1); c.Played == nil || *c.Played != *step {
			s.Challenge = c.with(func(c *Challenge) { c.Played = step })
		}
	}
}

// Due returns when time alone next changes the state; zero: never.
func (s *State) Due() time.Time {
	c := s.Challenge
	switch {
	case c == nil:
		return time.Time{}
	case c.State == ChallengeRevealed && !c.Over:
		return c.Revealed.Add(StepEvery * time.Duration(len(c.Answer)))
	}
	return c.Until
}

// Advance returns the state at t: an answer has been played through, and a challenge that
// was forgotten ends.
func (s *State) Advance(t time.Time) *State {
	due := s.Due()
	if due.IsZero() || due.After(t) {
		return s
	}
	next := *s
	next.Rev++
	next.AirRev++
	if c := s.Challenge; c.State == ChallengeRevealed && !c.Over {
		next.Challenge = c.with(func(c *Challenge) { c.Over = true })
		return &next
	}
	next.Challenge = nil
	return &next
}
