package match

import (
	"errors"
	"fmt"
)

// GamesMost is how many games and tie-break games a match may have.
const GamesMost = 200

// Check reports everything in the plan that cannot be. The other methods of Match want
// a plan that passes.
func (m Match) Check() error {
	var errs []error
	if len(m.Stages) == 0 {
		errs = append(errs, errors.New("no games are planned"))
	}
	if key(m.Names[0]) == "" || key(m.Names[1]) == "" || SameName(m.Names[0], m.Names[1]) {
		errs = append(errs, fmt.Errorf("the sides %q and %q cannot be told apart by name", m.Names[0], m.Names[1]))
	}
	if m.Favours > Second {
		errs = append(errs, fmt.Errorf("no such side: %d", m.Favours))
	}
	total := 0
	for i, stage := range m.Stages {
		total += max(0, min(stage.Games, GamesMost+1)) // so that the sum cannot overflow
		if stage.Games > GamesMost {
			continue // said below
		}
		if err := stage.check(); err != nil {
			errs = append(errs, fmt.Errorf("stage %d: %w", i+1, err))
		}
	}
	if total > GamesMost {
		errs = append(errs, fmt.Errorf("more than %d games", GamesMost))
	}
	if len(m.Stages) > 0 {
		errs = append(errs, m.checkLineup())
	}
	return errors.Join(errs...)
}

func (s Stage) check() error {
	switch {
	case s.Kind > Armageddon:
		return fmt.Errorf("no such kind: %d", s.Kind)
	case s.Games < 1:
		return errors.New("no games are planned")
	case s.Boards < 0 || s.Games%s.boards() != 0:
		return fmt.Errorf("%d games cannot be played on %d boards in full rounds", s.Games, s.Boards)
	case s.Kind == Armageddon && s.Games != 1:
		return fmt.Errorf("an armageddon is one game, not %d", s.Games)
	case s.Race && s.boards() > 1:
		return errors.New("a race needs one game after the other, so one board")
	case len(s.Whites) != 0 && len(s.Whites) != s.Games:
		return fmt.Errorf("colours are given for %d of %d games; give all or none", len(s.Whites), s.Games)
	case len(s.Rounds) != 0 && len(s.Rounds) != s.rounds():
		return fmt.Errorf("tags are given for %d of %d rounds; give all or none", len(s.Rounds), s.rounds())
	case len(s.Results) > s.Games:
		return fmt.Errorf("%d results of %d games", len(s.Results), s.Games)
	case s.Opens > Second:
		return fmt.Errorf("no such side: %d", s.Opens)
	}
	for game := range s.Games {
		if s.White(game) > Second || s.Result(game) > SecondWon {
			return fmt.Errorf("game %d: no such side or result", game+1)
		}
	}
	return nil
}

// checkLineup reports players that are missing, or the same on both sides.
func (m Match) checkLineup() error {
	boards, games := m.Stages[0].boards(), m.Stages[0].Games
	for i, stage := range m.Stages {
		if stage.boards() > boards {
			return fmt.Errorf("stage %d: %d boards, more than the %d of the match", i+1, stage.boards(), boards)
		}
	}
	switch n := len(m.Lineup); {
	case n == 0 && boards > 1:
		return fmt.Errorf("%d boards and no players: give those of each board", boards)
	case n != 0 && n != boards && n != games:
		return fmt.Errorf("players of %d boards: give %d, one pair for each board, or %d, one for each game", n, boards, games)
	}
	for i, pair := range m.Lineup {
		if key(pair[0].Name) == "" || key(pair[1].Name) == "" || SameName(pair[0].Name, pair[1].Name) {
			return fmt.Errorf("pair %d: %q and %q cannot be told apart by name", i+1, pair[0].Name, pair[1].Name)
		}
	}
	return nil
}
