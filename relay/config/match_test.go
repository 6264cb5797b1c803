package config

import (
	"reflect"
	"strings"
	"testing"

	"clocktell/relay/match"
)

// duel is a match of two players that says no more than most do. The names are invented.
const duel = minimal + "[match]\nfirst = \"Halloran, Mira\"\nsecond = \"Pettibone, Jonas\"\ngames = 4\n"

// teams is a match of two teams over two rounds on two boards.
const teams = minimal + "[match]\nfirst = \"Harbour Bridge\"\nsecond = \"Old Mill\"\ngames = 4\nboards = 2\n" +
	"lineup = [[\"Castellane, Remi\", \"Ostrander, Wim\"], [\"Dufresne, Aline\", \"Quillfeather, Ada\"]]\n"

func TestMatchErrors(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"one side", minimal + "[match]\nfirst = \"A\"\ngames = 2\n", "f:4: match.second: name both sides"},
		{"no side", minimal + "[match]\ngames = 2\n", "f:4: match.first: name both sides"},
		{"the same twice", minimal + "[match]\nfirst = \"Halloran, Mira\"\nsecond = \"MIRA HALLORAN\"\ngames = 2\n", `f:6: match.second: "MIRA HALLORAN" is the first side too`},
		{"no games", minimal + "[match]\nfirst = \"A\"\nsecond = \"B\"\n", "f:4: match.games: 0 is out of range; 1 to 200"},
		{"too many games", minimal + "[match]\nfirst = \"A\"\nsecond = \"B\"\ngames = 201\n", "f:7: match.games: 201 is out of range"},
		{"too many with tie-breaks", strings.Replace(duel, "4", "199", 1) + "tie_breaks = [\"rapid 2\"]\n", "f:4: match: more than 200 games"},
		{"no board", duel + "boards = 0\n", "f:8: match.boards: 0 is out of range; 1 and more"},
		{"half a round", strings.Replace(teams, "games = 4", "games = 5", 1), "f:8: match.boards: 5 games cannot be played on 2 boards"},
		{"teams without players", duel + "boards = 2\n", "f:4: match.lineup: 2 boards: name who plays on each"},
		{"race of teams", teams + "race = true\n", "f:10: match.race: needs one game after the other"},
		{"opens", duel + "opens = \"white\"\n", `f:8: match.opens: "white" is none of "first", "second"`},
		{"favours", duel + "favours = \"Mira\"\n", `f:8: match.favours: "Mira" is none of`},
		{"tie-break", duel + "tie_breaks = [\"rapid\"]\n", `f:8: match.tie_breaks: "rapid" is no tie-break; write "rapid 2"`},
		{"two games of armageddon", duel + "tie_breaks = [\"armageddon 2\"]\n", `f:8: match.tie_breaks: "armageddon 2" is no tie-break`},
		{"no game of a tie-break", duel + "tie_breaks = [\"blitz 0\"]\n", `f:8: match.tie_breaks: "blitz 0" is no tie-break`},
		{"a tie-break without round boards", teams + "tie_breaks = [\"blitz 3\"]\n", "f:4: match: stage 2: 3 games cannot be played on 2 boards"},
		{"no result", duel + "results = \"1x\"\n", "f:8: match.results: 'x' is no result; write 1, = or 0"},
		{"too many results", duel + "results = \"1=0==\"\n", "f:8: match.results: has 5 results of 4 games"},
		{"no score", duel + "score = \"two\"\n", `f:8: match.score: "two" is no score`},
		{"half a game", duel + "score = \"1.5-1\"\n", `f:8: match.score: "1.5-1" is no score`},
		{"score of more games", duel + "score = \"3-2\"\n", `f:8: match.score: "3-2" is of 5 games, and 4 are planned`},
		{"both", duel + "results = \"1\"\nscore = \"1-0\"\n", "f:9: match.score: give either results or score"},
		{"rounds", duel + "rounds = [\"1\", \"2\"]\n", "f:8: match.rounds: has 2 Round tags of 4 rounds"},
		{"one of a pair", strings.Replace(teams, ", \"Ostrander, Wim\"", "", 1), "f:9: match.lineup: pair 1 has 1 names"},
		{"the same on both sides", strings.Replace(teams, "Quillfeather, Ada", "Aline Dufresne", 1), `f:9: match.lineup: pair 2: "Dufresne, Aline" and "Aline Dufresne" cannot be told apart`},
		{"a pair too few", strings.Replace(teams, ", [\"Dufresne, Aline\", \"Quillfeather, Ada\"]", "", 1), "f:9: match.lineup: has 1 pairs; write one for each of 2 boards, or one for each of 4 games"},
		{"one rating", duel + "ratings = [2500]\n", "f:8: match.ratings: has 1 ratings; write 2"},
		{"ratings of teams", teams + "ratings = [2500, 2400]\n", "f:10: match.ratings: has 2 ratings; write 4"},
		{"no rating", duel + "ratings = [2500, 25000]\n", "f:8: match.ratings: 25000 is no rating; 0 to 4000"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := Parse("f", test.text, noEnv)
			if err == nil || !strings.HasPrefix(err.Error(), test.want) {
				t.Errorf("got  %v\nwant %q…", err, test.want)
			}
		})
	}
}

func TestMatchPlan(t *testing.T) {
	mira, jonas := match.Player{Name: "Halloran, Mira"}, match.Player{Name: "Pettibone, Jonas"}
	names := [2]string{mira.Name, jonas.Name}
	won, drawn, lost := match.FirstWon, match.Drawn, match.SecondWon
	for name, test := range map[string]struct {
		text string
		want match.Match
	}{
		"no more than most": {duel, match.Match{Names: names, Stages: []match.Stage{{Games: 4, Boards: 1}}}},
		"all that two players may have": {
			duel + "race = true\nopens = \"second\"\ntie_breaks = [\"rapid 2\", \"armageddon\"]\nfavours = \"first\"\nresults = \"1=0= 1\"\n" +
				"ratings = [2510, 2460]\nrounds = [\"1\", \"2\", \"3\", \"4\", \"5.1\", \"5.2\", \"6\"]\n",
			match.Match{
				Names: names, Favours: match.First,
				Lineup: [][2]match.Player{{{Name: mira.Name, Rating: 2510}, {Name: jonas.Name, Rating: 2460}}},
				Stages: []match.Stage{
					{Games: 4, Boards: 1, Race: true, Opens: match.Second, Results: []match.Result{won, drawn, lost, drawn}, Rounds: []string{"1", "2", "3", "4"}},
					{Kind: match.Rapid, Games: 2, Boards: 1, Results: []match.Result{won}, Rounds: []string{"5.1", "5.2"}},
					{Kind: match.Armageddon, Games: 1, Results: []match.Result{}, Rounds: []string{"6"}},
				},
			},
		},
		"teams": {
			teams + "score = \"½–1½\"\n",
			match.Match{
				Names: [2]string{"Harbour Bridge", "Old Mill"},
				Lineup: [][2]match.Player{
					{{Name: "Castellane, Remi"}, {Name: "Ostrander, Wim"}}, {{Name: "Dufresne, Aline"}, {Name: "Quillfeather, Ada"}},
				},
				Stages: []match.Stage{{Games: 4, Boards: 2, Results: []match.Result{drawn, lost}}},
			},
		},
	} {
		c, err := Parse("f", test.text, noEnv)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := c.Match.Plan(); !reflect.DeepEqual(withoutEmpty(*got), withoutEmpty(test.want)) {
			t.Errorf("%s: %+v, want %+v", name, *got, test.want)
		}
		if err := c.Match.Plan().Check(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// withoutEmpty takes lists without anything for none.
func withoutEmpty(m match.Match) match.Match {
	for i := range m.Stages {
		if len(m.Stages[i].Results) == 0 {
			m.Stages[i].Results = nil
		}
		if len(m.Stages[i].Rounds) == 0 {
			m.Stages[i].Rounds = nil
		}
	}
	return m
}

// TestScores: whatever the score, the results made of it add up to it, and a race that
// has come so far has not been over before.
func TestScores(t *testing.T) {
	for text, want := range map[string]match.Tally{
		"0-0": {0, 0}, "1-0": {2, 0}, "2.5-1.5": {5, 3}, "2½–1½": {5, 3}, "½ - ½": {1, 1}, ".5-1.5": {1, 3}, "0-3": {0, 6}, "5.5-5.5": {11, 11},
	} {
		results, err := scoreOf(text)
		stage := match.Stage{Games: 12, Race: true, Results: results}
		if got := stage.Score(); err != nil || got != want {
			t.Errorf("%q: %v, %v, want %v", text, got, err, want)
		}
		if _, over := stage.Possible().Decided(); over {
			t.Errorf("%q: a race to six is over", text)
		}
	}
	for _, text := range []string{"", "1", "1-", "-1", "1-0-0", "1.25-0.75", "1-0.5", "-1-2", "1e1-0", "201-0"} {
		if results, err := scoreOf(text); err == nil {
			t.Errorf("%q is taken for %v", text, results)
		}
	}
}
