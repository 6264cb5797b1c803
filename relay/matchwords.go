package relay

import (
	"slices"

	"clocktell/relay/match"
	"clocktell/relay/prompt"
)

// say says in a language how the match stands and what may come of it.
func (m *Match) say(in prompt.Language) {
	at := m.Standing().Stage
	if at > 0 && m.Stages[at].Score() == (match.Tally{}) {
		at-- // that it is level says more
	}
	m.Stands, m.Stage = m.standsIn(at), m.Stages[at]
	m.Line = in.MatchScore(m.Stands).Text
	if m.Stands.Rated && !m.Stands.Over {
		m.Expected = in.MatchExpected(m.Stands)
	}
	for i := range m.Boards {
		for _, score := range m.after(m.Boards[i].Place) {
			m.Boards[i].After = append(m.Boards[i].After, in.MatchLine(score))
		}
	}
	m.ToCome = m.toCome(in)
}

// toCome names the games to come that no board shows, of teams the first of each round.
func (m *Match) toCome(in prompt.Language) []string {
	var out []string
	round := 0
	for _, p := range m.Match.ToCome() {
		shown := slices.ContainsFunc(m.Boards, func(b MatchBoard) bool { return b.Place.Stage == p.Stage && b.Place.Game == p.Game })
		if shown || m.teams() && p.Round == round {
			continue
		}
		white, board := "", 0
		if p.White != match.Neither {
			white = m.called()[p.White-match.First]
		}
		if m.Stages[p.Stage].Boards > 1 {
			board = p.Board
		}
		out, round = append(out, in.MatchGame(p.Round, board, white)), p.Round
	}
	return out
}

func (m *Match) standsIn(stage int) prompt.MatchScore {
	s := m.Stages[stage]
	out := m.scored(stage, s.Score(), leftOf(s), m.Possible())
	out.More = !out.Over && s.Possible().Only(match.Neither)
	if out.More {
		out.Next = m.Stages[stage+1].Kind
	}
	forecast, known := m.Forecast()
	out.Rated, out.Expected = known && stage == 0, forecast.Rest
	return out
}

func leftOf(s match.Stage) int {
	left := 0
	for game := range s.Games {
		if s.Result(game) == match.Unknown {
			left++
		}
	}
	return left
}

func (m *Match) scored(stage int, score match.Tally, left int, possible match.Outcomes) prompt.MatchScore {
	out := prompt.MatchScore{Names: m.called(), Teams: m.teams(), Score: score, Left: left, TieBreak: stage > 0}
	out.Winner, out.Over = possible.Decided()
	return out
}

// teams reports whether the sides are teams.
func (m *Match) teams() bool {
	return len(m.Lineup) > 1 || !match.SameName(m.Lineup[0][0].Name, m.Names[0])
}

// called returns how the sides are spoken of: players by their family names if those
// differ.
func (m *Match) called() [2]string {
	short := [2]string{Player{Name: m.Names[0]}.Short(), Player{Name: m.Names[1]}.Short()}
	if m.teams() || match.SameName(short[0], short[1]) {
		return m.Names
	}
	return short
}

// after says what a win of White, a draw and a win of Black would make of the match.
func (m *Match) after(p match.Place) []prompt.MatchScore {
	means, ok := m.Meaning(p.Stage, p.Game, match.First)
	if !ok || p.White == match.Neither {
		return nil
	}
	results := []match.After{means.Win, means.Draw, means.Loss}
	if p.White == match.Second {
		results[0], results[2] = results[2], results[0]
	}
	var out []prompt.MatchScore
	for _, a := range results {
		score := m.scored(p.Stage, match.Tally{a.Own, a.Other}, a.Left, a.Match)
		if a.TieBreak > 0 && !score.Over {
			score.More, score.Next = true, m.Stages[a.TieBreak].Kind
		}
		out = append(out, score)
	}
	return out
}
