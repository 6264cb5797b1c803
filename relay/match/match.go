package match

// Player is who plays on a board.
type Player struct {
	Name   string
	Rating int // 0: not known
}

// Match is the plan of a match and its results so far. The first stage is the match
// proper, the others are tie-breaks in their order.
type Match struct {
	Names [2]string // of First and Second: players, or teams

	// Lineup has the players of First and Second on each board, or of each game of the
	// first stage if the teams change theirs. Empty: the sides are the players.
	Lineup [][2]Player

	Stages  []Stage
	Favours Side // who wins when all stages end level; Neither: the match is then drawn
}

// Possible returns how the match can still end.
func (m Match) Possible() Outcomes { return m.from(0) }

// from returns how the match can end if it is level before the stage.
func (m Match) from(stage int) Outcomes {
	if stage >= len(m.Stages) {
		return only(m.Favours)
	}
	out := m.Stages[stage].Possible()
	if out.Has(Neither) {
		out = out&^only(Neither) | m.from(stage+1)
	}
	return out
}

// current returns the stage under way: the first that has not ended level, or the last.
func (m Match) current() int {
	for i, stage := range m.Stages {
		if !stage.Possible().Only(Neither) {
			return i
		}
	}
	return len(m.Stages) - 1
}

// Standing is how a match stands.
type Standing struct {
	Possible Outcomes // how the match can still end; Decided tells who has won it
	Stage    int      // the stage under way, or the one that ended the match
	Score    Tally    // of that stage
	Left     int      // its games without a result

	// What each side lacks in that stage: to win the match, and to end the stage level.
	// It may be more than the games that are left can bring. In a race the side that is
	// first to have it wins; if a draw brings both there, the stage is level.
	ToClinch, ToLevel Tally
}

// Standing tells how the match stands.
func (m Match) Standing() Standing {
	at := m.current()
	stage := m.Stages[at]
	s := Standing{Possible: m.Possible(), Stage: at, Score: stage.Score(), Left: stage.left()}
	for i, side := range []Side{First, Second} {
		s.ToLevel[i] = max(0, stage.half()-s.Score[i])
		s.ToClinch[i] = max(0, m.line(at, side)-s.Score[i])
	}
	return s
}

// line is the score of a stage with which the side wins the match.
func (m Match) line(stage int, side Side) Points {
	s := m.Stages[stage]
	if m.from(stage + 1).Only(side) { // level is enough
		return s.half()
	}
	return s.line()
}

func (s Stage) left() int {
	n := 0
	for game := range s.Games {
		if s.Result(game) == Unknown {
			n++
		}
	}
	return n
}

// with returns a copy of m with the result of a game.
func (m Match) with(stage, game int, result Result) Match {
	stages := append([]Stage(nil), m.Stages...)
	results := make([]Result, stages[stage].Games)
	copy(results, stages[stage].Results)
	results[game] = result
	stages[stage].Results = results
	m.Stages = stages
	return m
}
