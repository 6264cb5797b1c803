package match

// Place is where a game stands in the plan of a match.
type Place struct {
	Stage int  // from 0
	Game  int  // of the stage, from 0
	Round int  // from 1, through all stages
	Board int  // from 1
	White Side // Neither: not known yet
}

func (m Match) place(stage, game int) Place {
	s := m.Stages[stage]
	round := 1 + game/s.boards()
	for _, earlier := range m.Stages[:stage] {
		round += earlier.rounds()
	}
	return Place{Stage: stage, Game: game, Round: round, Board: 1 + game%s.boards(), White: s.White(game)}
}

// ToCome lists the games of the stage under way that have no result, with their rounds
// and colours, the game being played first. A decided match of two players has none:
// its other games need not be played. Teams play on.
func (m Match) ToCome() []Place {
	at := m.current()
	stage := m.Stages[at]
	if _, decided := m.Possible().Decided(); decided && stage.boards() == 1 {
		return nil
	}
	var out []Place
	for game := range stage.Games {
		if stage.Result(game) == Unknown {
			out = append(out, m.place(at, game))
		}
	}
	return out
}

// Forecast is what the ratings expect of First and Second, in hundredths of a point.
type Forecast struct {
	Rest  [2]Score // of the games of the first stage that have no result
	Total [2]Score // with the points made so far
}

// Forecast adds up what the ratings expect of the first stage if all of its games are
// played, by Shares. It is false if a rating that is needed is not known, and when no
// game of that stage is left. Of tie-breaks it says nothing: the ratings are not theirs.
func (m Match) Forecast() (Forecast, bool) {
	stage := m.Stages[0]
	score := stage.Score()
	var out Forecast
	for game := range stage.Games {
		if stage.Result(game) != Unknown {
			continue
		}
		pair := m.pair(0, game)
		if pair[0].Rating <= 0 || pair[1].Rating <= 0 {
			return Forecast{}, false
		}
		first, second := Shares(pair[0].Rating, pair[1].Rating)
		out.Rest[0] += first
		out.Rest[1] += second
	}
	for i := range out.Total {
		out.Total[i] = out.Rest[i] + Score(score[i])*certain/Score(OnePoint)
	}
	return out, stage.left() > 0
}

// pair returns who plays a game for First and for Second.
func (m Match) pair(stage, game int) [2]Player {
	board := game % m.Stages[stage].boards()
	switch {
	case len(m.Lineup) == 0:
		return [2]Player{{Name: m.Names[0]}, {Name: m.Names[1]}}
	case stage == 0 && len(m.Lineup) == m.Stages[0].Games:
		return m.Lineup[game]
	case board < len(m.Lineup):
		return m.Lineup[board]
	}
	return [2]Player{}
}
