package relay

import (
	"slices"

	"clocktell/relay/match"
	"clocktell/relay/prompt"
)

// Match is the match of the show as it stands: what the plan says, and the results of
// its games as the boards show them. It is worked out anew when a player, a round or a
// result of a board changes, and never changed itself.
type Match struct {
	match.Match
	Stands   prompt.MatchScore // of the stage under way; a tie-break only once it has a result
	Stage    match.Stage       // that this is the score of
	Line     string            // how it stands, as a sentence
	Expected string            // what the ratings expect of the games left, or ""
	ToCome   []string          // games that no board shows yet, a line each; of teams a line for each round
	Boards   []MatchBoard      // games of the match that boards show, by their numbers
	Unplaced []int             // boards whose players are of the match and whose round is not of the plan
	Contrary []match.Place     // games that have two results; see match.Taken

	told told
}

// MatchBoard is a game of the match on a board.
type MatchBoard struct {
	Board int
	Place match.Place // White as it is played
	// What a win of White, a draw and a win of Black would make of the match, in words; nil
	// for a game that has its result or whose stage is not under way.
	After []string

	atStake prompt.Stake
	stake   stake
}

// told names the game whose result has made the score what it is; zero: none that was
// seen being played.
type told struct{ board, game int }

// pastGame is a finished game that its board shows no longer.
type pastGame struct {
	players [2]Player
	result  string
	round   string
}

// toldAs reports whether pages are told the same of both matches.
func (m *Match) toldAs(next *Match) bool {
	if m == nil || next == nil {
		return m == next
	}
	return m.Stands == next.Stands && m.Stage.Kind == next.Stage.Kind && m.Stage.Games == next.Stage.Games &&
		m.Line == next.Line && m.Expected == next.Expected && slices.Equal(m.ToCome, next.ToCome) &&
		slices.EqualFunc(m.underWay(), next.underWay(), func(x, y MatchBoard) bool { return x.Board == y.Board && slices.Equal(x.After, y.After) })
}

// underWay returns the games whose result is still to come, by their boards.
func (m *Match) underWay() []MatchBoard {
	return slices.DeleteFunc(slices.Clone(m.Boards), func(b MatchBoard) bool { return b.After == nil })
}

// Game returns the game of the match on a board, if it is one.
func (m *Match) Game(board int) (MatchBoard, bool) {
	if m == nil {
		return MatchBoard{}, false
	}
	i := slices.IndexFunc(m.Boards, func(b MatchBoard) bool { return b.Board == board })
	if i < 0 {
		return MatchBoard{}, false
	}
	return m.Boards[i], true
}

// matchTouched notes what of a board's change matters for the match.
func (s *Show) matchTouched(was, next *Board) {
	switch {
	case s.plan.Match == nil:
	case was.Game != next.Game:
		if was.Over() {
			s.past = append(slices.Clip(s.past), pastGame{was.Players, was.Result, was.Key.Round})
		}
		s.unjudged = true
	case was.Result != next.Result:
		if was.Rev > 0 { // not found finished
			s.ended = next.Number
		}
		s.unjudged = true
	case was.Players != next.Players || was.Key.Round != next.Key.Round:
		s.unjudged = true
	}
}

// judgeMatch works out how the match stands, if anything has happened to it since the
// show before.
func (s *Show) judgeMatch(before *Show) {
	if !s.unjudged {
		return
	}
	games := s.matchGames()
	plan, taken := s.plan.Match.Take(games)
	next := &Match{Match: rated(plan, s.players()), Contrary: taken.Contrary}
	for i, b := range s.Boards {
		if place, ok := taken.Places[i]; ok {
			next.Boards = append(next.Boards, MatchBoard{Board: b.Number, Place: place})
		} else if slices.Contains(taken.Unplaced, i) {
			next.Unplaced = append(next.Unplaced, b.Number)
		}
	}
	next.told = s.toldNow(next)
	next.say(s.defaults.Language)
	for i := range next.Boards {
		game := &next.Boards[i]
		game.atStake = next.atStake(game.Place)
	}
	for i := range next.Boards {
		game := &next.Boards[i]
		game.stake = next.stakeOf(*game, s.Boards[game.Board-1], s.defaults.Language)
	}
	if !s.Match.toldAs(next) {
		s.HeadRev++
	}
	s.Match, s.ended, s.unjudged = next, 0, false
	s.noteMatch(before)
	s.setStakes(before)
}

// matchGames lists the games that boards show, by board, and behind them those that they
// have shown.
func (s *Show) matchGames() []match.Game {
	var games []match.Game
	for _, b := range s.Boards {
		games = append(games, matchGame(b.Players, b.Result, b.Key.Round))
	}
	again := func(p pastGame) bool { // it has come again, and counts as it is now
		return slices.ContainsFunc(s.Boards, func(b *Board) bool { return b.Key.Round == p.round && samePair(b.Players, p.players) })
	}
	s.past = slices.DeleteFunc(slices.Clone(s.past), again)
	for _, p := range s.past {
		games = append(games, matchGame(p.players, p.result, p.round))
	}
	return games
}

func matchGame(players [2]Player, result, round string) match.Game {
	return match.Game{White: players[0].Name, Black: players[1].Name, Result: result, Round: round}
}

func samePair(a, b [2]Player) bool {
	same := func(i, j int) bool { return match.SameName(a[i].Name, b[j].Name) }
	return same(0, 0) && same(1, 1) || same(0, 1) && same(1, 0)
}

// players returns everybody whom the boards show or have shown.
func (s *Show) players() []Player {
	var out []Player
	for _, b := range s.Boards {
		out = append(out, b.Players[:]...)
	}
	for _, p := range s.past {
		out = append(out, p.players[:]...)
	}
	return out
}

// rated fills in the ratings that the plan lacks and the players' tags have.
func rated(m match.Match, players []Player) match.Match {
	m.Lineup = slices.Clone(m.Lineup)
	if len(m.Lineup) == 0 {
		m.Lineup = [][2]match.Player{{{Name: m.Names[0]}, {Name: m.Names[1]}}}
	}
	for i := range m.Lineup {
		for side := range m.Lineup[i] {
			p := &m.Lineup[i][side]
			at := slices.IndexFunc(players, func(known Player) bool { return known.Rating > 0 && match.SameName(known.Name, p.Name) })
			if p.Rating == 0 && at >= 0 {
				p.Rating = players[at].Rating
			}
		}
	}
	return m
}

// toldNow returns whose result has made the score what it is now.
func (s *Show) toldNow(next *Match) told {
	if s.ended > 0 {
		game, ok := next.Game(s.ended)
		if ok && next.Stages[game.Place.Stage].Result(game.Place.Game) != match.Unknown {
			return told{s.ended, s.Boards[s.ended-1].Game}
		}
		return told{}
	}
	if s.Match != nil && s.Match.sameScore(next) {
		return s.Match.told
	}
	return told{}
}

func (m *Match) sameScore(other *Match) bool {
	return slices.EqualFunc(m.Stages, other.Stages, func(a, b match.Stage) bool { return a.Score() == b.Score() })
}
