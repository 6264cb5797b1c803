package config

import (
	"strings"

	"clocktell/relay/match"
)

// match checks what the match is said to be. What single keys do not show, such as too
// many games in all, the plan itself tells.
func (v *validator) match(m *Match) {
	if !m.given() {
		return
	}
	before := len(v.errs)
	switch {
	case strings.TrimSpace(m.First) == "":
		v.wrong("match.first", "name both sides: players as the feed writes them, or teams")
	case strings.TrimSpace(m.Second) == "":
		v.wrong("match.second", "name both sides: players as the feed writes them, or teams")
	case match.SameName(m.First, m.Second):
		v.wrong("match.second", "%q is the first side too", m.Second)
	}
	if m.Games < 1 || m.Games > match.GamesMost {
		v.wrong("match.games", "%d is out of range; 1 to %d", m.Games, match.GamesMost)
	}
	switch {
	case m.Boards < 1:
		v.wrong("match.boards", "%d is out of range; 1 and more", m.Boards)
	case m.Games%m.Boards != 0:
		v.wrong("match.boards", "%d games cannot be played on %d boards in full rounds", m.Games, m.Boards)
	case m.Race && m.Boards > 1:
		v.wrong("match.race", "needs one game after the other, so one board")
	case m.Boards > 1 && len(m.Lineup) == 0:
		v.wrong("match.lineup", "%d boards: name who plays on each, such as [[\"Alba, A\", \"Cora, C\"], [\"Basil, B\", \"Dario, D\"]]", m.Boards)
	}
	v.sides(m)
	v.lineup(m)
	v.played(m)
	if before == len(v.errs) {
		if err := m.Plan().Check(); err != nil {
			v.wrong("match", "%s", strings.ReplaceAll(err.Error(), "\n", "; "))
		}
	}
}

func (v *validator) sides(m *Match) {
	for _, c := range []struct{ key, text string }{{"opens", m.Opens}, {"favours", m.Favours}} {
		if _, ok := sideOf(c.text); !ok {
			v.wrong("match."+c.key, `%q is none of "first", "second" and ""`, c.text)
		}
	}
}

func (v *validator) lineup(m *Match) {
	for i, names := range m.Lineup {
		switch {
		case len(names) != 2:
			v.wrong("match.lineup", "pair %d has %d names; write the first side's player and the second's", i+1, len(names))
		case !match.SameName(names[0], names[0]) || !match.SameName(names[1], names[1]) || match.SameName(names[0], names[1]):
			v.wrong("match.lineup", "pair %d: %q and %q cannot be told apart by name", i+1, names[0], names[1])
		}
	}
	if n := len(m.Lineup); n != 0 && n != m.Boards && n != m.Games {
		v.wrong("match.lineup", "has %d pairs; write one for each of %d boards, or one for each of %d games", n, m.Boards, m.Games)
	}
	if n, want := len(m.Ratings), 2*max(1, len(m.Lineup)); n != 0 && n != want {
		v.wrong("match.ratings", "has %d ratings; write %d, the first side's and the second's of each pair, 0 where there is none", n, want)
	}
	for _, rating := range m.Ratings {
		if rating < 0 || rating > ratingMost {
			v.wrong("match.ratings", "%d is no rating; 0 to %d", rating, ratingMost)
		}
	}
}

// played checks the tie-breaks, and what is said of games by their order.
func (v *validator) played(m *Match) {
	games, rounds := m.Games, m.Games/max(1, m.Boards)
	for _, text := range m.TieBreaks {
		stage, err := tieBreakOf(text)
		if err != nil {
			v.wrong("match.tie_breaks", "%v", err)
			return // how many games there are is not known
		}
		games += stage.Games
		if stage.Kind == match.Armageddon {
			rounds++
		} else {
			rounds += stage.Games / max(1, m.Boards)
		}
	}
	results, err := marksOf(m.Results)
	switch {
	case err != nil:
		v.wrong("match.results", "%v", err)
	case len(results) > games:
		v.wrong("match.results", "has %d results of %d games", len(results), games)
	}
	if n := len(m.Rounds); n != 0 && n != rounds {
		v.wrong("match.rounds", "has %d Round tags of %d rounds, those of tie-breaks included", n, rounds)
	}
	if m.Score == "" {
		return
	}
	scored, err := scoreOf(m.Score)
	switch {
	case m.Results != "":
		v.wrong("match.score", "give either results or score")
	case err != nil:
		v.wrong("match.score", "%v", err)
	case len(scored) > m.Games:
		v.wrong("match.score", "%q is of %d games, and %d are planned", m.Score, len(scored), m.Games)
	}
}
