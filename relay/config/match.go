package config

import (
	"fmt"
	"strconv"
	"strings"

	"clocktell/relay/match"
)

// Match is the match that the games belong to. No table, or one without a value: none.
type Match struct {
	First     string     `toml:"first"` // a player as feeds write the name, or a team
	Second    string     `toml:"second"`
	Games     int        `toml:"games"`  // planned before any tie-break, on all boards together
	Boards    int        `toml:"boards"` // played at once
	Race      bool       `toml:"race"`   // over as soon as one side has half of the points
	Opens     string     `toml:"opens"`  // "first" or "second" has White in the first game; "" the games tell
	TieBreaks []string   `toml:"tie_breaks"`
	Favours   string     `toml:"favours"` // "first" or "second" wins if all is level; "" the match is then drawn
	Results   string     `toml:"results"` // of games already played, by marks
	Score     string     `toml:"score"`   // of games already played, as a sum
	Rounds    []string   `toml:"rounds"`  // Round tags where they are not the numbers from 1
	Lineup    [][]string `toml:"lineup"`  // of teams: who plays on each board, or in each game
	Ratings   []int      `toml:"ratings"` // two for each line of the lineup, 0 unknown
}

// given reports whether any key but boards has a value.
func (m *Match) given() bool {
	return m.First != "" || m.Second != "" || m.Games != 0 || m.Race || m.Opens != "" || len(m.TieBreaks) > 0 || m.Favours != "" ||
		m.Results != "" || m.Score != "" || len(m.Rounds) > 0 || len(m.Lineup) > 0 || len(m.Ratings) > 0
}

// Plan returns the plan of the match with the results given, nil if there is none. The
// configuration has been checked.
func (m *Match) Plan() *match.Match {
	if !m.given() {
		return nil
	}
	opens, _ := sideOf(m.Opens)
	favours, _ := sideOf(m.Favours)
	out := match.Match{Names: [2]string{m.First, m.Second}, Favours: favours, Lineup: m.pairs()}
	out.Stages = []match.Stage{{Games: m.Games, Boards: m.Boards, Race: m.Race, Opens: opens}}
	for _, text := range m.TieBreaks {
		stage, _ := tieBreakOf(text)
		if stage.Kind != match.Armageddon {
			stage.Boards = m.Boards
		}
		out.Stages = append(out.Stages, stage)
	}
	results, _ := marksOf(m.Results)
	if m.Score != "" {
		results, _ = scoreOf(m.Score)
	}
	rounds := m.Rounds
	for i := range out.Stages {
		stage := &out.Stages[i]
		n := min(stage.Games, len(results))
		stage.Results, results = results[:n:n], results[n:]
		if n := stage.Games / max(1, stage.Boards); len(rounds) >= n {
			stage.Rounds, rounds = rounds[:n:n], rounds[n:]
		}
	}
	return &out
}

// pairs returns the lineup with its ratings. Two players are one only if they have any.
func (m *Match) pairs() [][2]match.Player {
	lineup := m.Lineup
	if len(lineup) == 0 && len(m.Ratings) > 0 {
		lineup = [][]string{{m.First, m.Second}}
	}
	var out [][2]match.Player
	for i, names := range lineup {
		var pair [2]match.Player
		for side := range min(len(names), 2) {
			pair[side].Name = names[side]
			if at := 2*i + side; at < len(m.Ratings) {
				pair[side].Rating = m.Ratings[at]
			}
		}
		out = append(out, pair)
	}
	return out
}

// sideOf reads "first", "second" or "".
func sideOf(text string) (match.Side, bool) {
	switch text {
	case "":
		return match.Neither, true
	case "first":
		return match.First, true
	case "second":
		return match.Second, true
	}
	return match.Neither, false
}

// tieBreakOf reads a stage: "rapid 2", "blitz 2" or "armageddon".
func tieBreakOf(text string) (match.Stage, error) {
	wrong := fmt.Errorf(`%q is no tie-break; write "rapid 2", "blitz 2" or "armageddon"`, text)
	words := strings.Fields(text)
	if len(words) == 1 && words[0] == match.Armageddon.String() {
		return match.Stage{Kind: match.Armageddon, Games: 1}, nil
	}
	if len(words) != 2 {
		return match.Stage{}, wrong
	}
	games, err := strconv.Atoi(words[1])
	if err != nil || games < 1 || games > match.GamesMost {
		return match.Stage{}, wrong
	}
	for _, kind := range []match.Kind{match.Regular, match.Rapid, match.Blitz} {
		if words[0] == kind.String() {
			return match.Stage{Kind: kind, Games: games}, nil
		}
	}
	return match.Stage{}, wrong
}

// marks are the results of single games, as First sees them.
var marks = map[rune]match.Result{
	'1': match.FirstWon, '=': match.Drawn, '½': match.Drawn, '0': match.SecondWon, '.': match.Unknown,
}

// marksOf reads a mark for each game; spaces are free.
func marksOf(text string) ([]match.Result, error) {
	var out []match.Result
	for _, r := range text {
		result, known := marks[r]
		switch {
		case r == ' ':
		case !known:
			return nil, fmt.Errorf("%q is no result; write 1, = or 0 for each game as the first side sees it, and . for one not played yet", r)
		default:
			out = append(out, result)
		}
	}
	return out, nil
}

// scoreOf reads a sum such as "2.5-1.5" and returns results that make it. They are draws
// as far as that goes, so that no race is over before its end.
func scoreOf(text string) ([]match.Result, error) {
	own, other, found := strings.Cut(strings.NewReplacer("–", "-", " ", "").Replace(text), "-")
	first, okFirst := pointsOf(own)
	second, okSecond := pointsOf(other)
	if !found || !okFirst || !okSecond || (first+second)%match.OnePoint != 0 {
		return nil, fmt.Errorf(`%q is no score; write the points of both sides, such as "2.5-1.5", which make a whole number of games`, text)
	}
	var out []match.Result
	for range min(first, second) {
		out = append(out, match.Drawn)
	}
	more := match.FirstWon
	if second > first {
		more = match.SecondWon
	}
	for range (max(first, second) - min(first, second)) / match.OnePoint {
		out = append(out, more)
	}
	return out, nil
}

// pointsOf reads "2", "2.5", "2½" or "½".
func pointsOf(text string) (match.Points, bool) {
	if half, ok := strings.CutSuffix(text, "½"); ok {
		text = half + ".5"
	}
	whole, half, hasHalf := strings.Cut(text, ".")
	if whole == "" && hasHalf {
		whole = "0"
	}
	n, err := strconv.Atoi(whole)
	if err != nil || n < 0 || n > match.GamesMost || hasHalf && half != "5" && half != "0" {
		return 0, false
	}
	points := match.Points(n) * match.OnePoint
	if half == "5" {
		points += match.HalfPoint
	}
	return points, true
}
