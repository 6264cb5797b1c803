package desk

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"clocktell/relay/bitboard"
)

// Limits of a challenge.
const (
	thinkLeast   = 10 * time.Second
	thinkMost    = 10 * time.Minute
	thinkUsual   = time.Minute
	hintsMost    = 5
	forgottenFor = time.Minute      // past the time for thinking: then it ends by itself
	answerStays  = 30 * time.Second // after its last move
)

var errAsking = errors.New("a challenge is under way; reveal its answer or end it first")

// ChallengeState says how far a challenge is.
type ChallengeState string

// The states.
const (
	ChallengeReady    ChallengeState = "ready"    // only the desks know of it
	ChallengeAsked    ChallengeState = "asked"    // viewers think
	ChallengeRevealed ChallengeState = "revealed" // the answer is played
)

// Challenge is a question put to the viewers: find the move. It is never changed.
type Challenge struct {
	ID       int    // another with every question
	By       string // who asked it; "" nobody, or not yet
	State    ChallengeState
	Place    Place
	Number   int // of the move to be found, in half-moves as Game.HalfMove counts
	FEN      string
	Last     *Step // that led there; nil: none
	Turned   bool
	Question string
	For      time.Duration // for thinking
	Hints    []string
	Given    int       // of the hints
	Line     int       // the answer: last move of a side line; 0: the move played
	Asked    time.Time // zero: not yet
	Revealed time.Time
	Answer   []Step
	Over     bool      // the answer has been played through
	Played   *Step     // the move played from there; nil: none yet
	Until    time.Time // when it ends by itself; zero: it does not
}

// Ends returns when the time for thinking is over.
func (c *Challenge) Ends() time.Time { return c.Asked.Add(c.For) }

// Asking returns the challenge that viewers think about, nil for none.
func (s *State) Asking() *Challenge {
	if s.asking() {
		return s.Challenge
	}
	return nil
}

// Hiding returns the challenge whose board scenes must not be sent anything newer of, nil
// for none: until its answer has been played through.
func (s *State) Hiding() *Challenge {
	if s.onAir() == nil || s.Challenge.Over {
		return nil
	}
	return s.Challenge
}

func (s *State) asking() bool { return s.Challenge != nil && s.Challenge.State == ChallengeAsked }

func (s *State) prepareChallenge(act Act, games Games) error {
	if s.Challenge != nil && s.Challenge.State != ChallengeReady {
		return errAsking
	}
	game, err := s.game(games)
	if err != nil {
		return err
	}
	position, ok := s.Legal(games)
	if !ok || !position.HasMove() {
		return errors.New("no move can be found here: the game is over in this position")
	}
	c := &Challenge{
		State: ChallengeReady, Place: s.Place, Number: game.HalfMove(s.Place.Ply) + len(s.path(s.Place.Move)), Turned: s.Turned,
		Question: strings.TrimSpace(act.Text), For: time.Duration(act.Seconds) * time.Second, Hints: slices.Clone(act.Hints), Line: act.Move,
	}
	c.FEN, c.Last = s.Stand(games)
	c.Place.Live = false
	if c.For == 0 {
		c.For = thinkUsual
	}
	if c.Question == "" {
		c.Question = usualQuestion(&position)
	}
	if err := c.check(); err != nil {
		return err
	}
	if c.Line != 0 {
		if _, err := s.answerOf(c, c.Line, games); err != nil {
			return err
		}
	}
	s.last++
	c.ID = s.last
	s.Challenge = c
	return nil
}

func usualQuestion(p *bitboard.Position) string {
	return sideName(p) + " to move: what would you play?"
}

func (c *Challenge) check() error {
	switch {
	case !legible(c.Question, TextMost):
		return fmt.Errorf("a question has 1 to %d characters, on one line", TextMost)
	case c.For < thinkLeast || c.For > thinkMost:
		return fmt.Errorf("viewers get %.0f to %.0f seconds", thinkLeast.Seconds(), thinkMost.Seconds())
	case len(c.Hints) > hintsMost:
		return fmt.Errorf("there can be %d hints", hintsMost)
	}
	for _, hint := range c.Hints {
		if !legible(hint, TextMost) {
			return fmt.Errorf("a hint has 1 to %d characters, on one line", TextMost)
		}
	}
	return nil
}

// answerOf returns the moves that answer a challenge: those of a side line behind its
// position, or with 0 the move that was played.
func (s *State) answerOf(c *Challenge, line int, games Games) ([]Step, error) {
	if line == 0 {
		if game := games.Game(c.Place.Board); c.wasPlayed(game) {
			return []Step{*stepAt(game, c.Place.Ply+1)}, nil
		}
		if c.Played == nil {
			return nil, errors.New("no move has been played from there yet; reveal a side line, or wait")
		}
		return []Step{*c.Played}, nil
	}
	path := s.path(line)
	i := slices.IndexFunc(path, func(m Move) bool {
		return m.After == c.Place.Move && m.Board == c.Place.Board && m.Game == c.Place.Game && m.from.String() == c.FEN
	})
	if i < 0 {
		return nil, errors.New("that side line does not go on from the position of the question")
	}
	return steps(path[i:]), nil
}

// change replaces the challenge by a changed copy.
func (s *State) change(how func(*Challenge)) { s.Challenge = s.Challenge.with(how) }

// with returns a changed copy.
func (c *Challenge) with(how func(*Challenge)) *Challenge {
	next := *c
	how(&next)
	return &next
}

var errNoChallenge = errors.New("no challenge is prepared")

func (s *State) ask(act Act, games Games) error {
	c := s.Challenge
	switch {
	case c == nil:
		return errNoChallenge
	case c.State != ChallengeReady:
		return errAsking
	}
	if game := games.Game(c.Place.Board); c.Place.Move == 0 && (game.Plies() < c.Place.Ply || game.Position(c.Place.Ply).String() != c.FEN) {
		return errors.New("the game has been corrected since, and its position is another; prepare the question anew")
	}
	s.Air = Air{Board: c.Place.Board}
	s.change(func(c *Challenge) {
		c.State, c.Asked, c.By = ChallengeAsked, act.At, act.Who
		if c.By == "" {
			c.By = s.Lead
		}
		c.Until = c.Ends().Add(forgottenFor)
	})
	return nil
}

func (s *State) giveHint(act Act, _ Games) error {
	c := s.Challenge
	own := strings.TrimSpace(act.Text)
	switch {
	case !s.asking():
		return errors.New("no question is put to the viewers")
	case own == "" && c.Given == len(c.Hints):
		return errors.New("all hints have been given; write one")
	case own != "" && !legible(own, TextMost):
		return fmt.Errorf("a hint has 1 to %d characters, on one line", TextMost)
	case own != "" && len(c.Hints) == hintsMost:
		return fmt.Errorf("there can be %d hints", hintsMost)
	}
	s.change(func(c *Challenge) {
		if own != "" {
			c.Hints = slices.Insert(slices.Clone(c.Hints), c.Given, own)
		}
		c.Given++
	})
	return nil
}

func (s *State) reveal(act Act, games Games) error {
	if !s.asking() {
		return errors.New("no question is put to the viewers")
	}
	line := act.Move
	if line == 0 {
		line = s.Challenge.Line
	}
	answer, err := s.answerOf(s.Challenge, line, games)
	if err != nil {
		return err
	}
	s.change(func(c *Challenge) {
		c.State, c.Revealed, c.Answer, c.Line = ChallengeRevealed, act.At, answer, line
		c.Until = act.At.Add(StepEvery*time.Duration(len(answer)) + answerStays)
	})
	return nil
}

func (s *State) endChallenge(Act, Games) error {
	if s.Challenge == nil {
		return errNoChallenge
	}
	s.Challenge = nil
	return nil
}
