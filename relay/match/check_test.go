package match

import (
	"strings"
	"testing"
)

func TestCheck(t *testing.T) {
	with := func(change func(*Match)) Match {
		m := harbour("")
		change(&m)
		return m
	}
	stage := func(s Stage) Match { return planned(s) }
	for _, test := range []struct {
		m    Match
		want string // "" for a plan that can be
	}{
		{harbour(""), ""}, {planned(bestOf(GamesMost, "")), ""}, {planned(bestOf(4, ""), rapids, rapids, armageddon), ""},
		{Match{Names: [2]string{mira, jonas}}, "no games are planned"},
		{stage(Stage{}), "stage 1: no games are planned"},
		{planned(bestOf(GamesMost, ""), armageddon), "more than 200 games"},
		{stage(Stage{Games: 1 << 62}), "more than 200 games"},
		{planned(bestOf(2, ""), Stage{Kind: Armageddon, Games: 2}), "stage 2: an armageddon is one game, not 2"},
		{stage(Stage{Games: 3, Boards: 2}), "cannot be played on 2 boards"},
		{stage(Stage{Games: 2, Boards: -1}), "cannot be played on -1 boards"},
		{stage(Stage{Games: 2, Boards: 2, Race: true}), "a race needs"},
		{stage(Stage{Games: 2, Whites: []Side{First}}), "colours are given for 1 of 2 games"},
		{stage(Stage{Games: 1, Whites: []Side{3}}), "game 1: no such side"},
		{stage(Stage{Games: 2, Rounds: []string{"1"}}), "tags are given for 1 of 2 rounds"},
		{stage(Stage{Games: 1, Results: results("10")}), "2 results of 1 games"},
		{stage(Stage{Games: 1, Results: []Result{9}}), "game 1: no such side or result"},
		{stage(Stage{Games: 1, Opens: 3}), "no such side: 3"}, {stage(Stage{Games: 1, Kind: 9}), "no such kind: 9"},
		{with(func(m *Match) { m.Favours = 3 }), "no such side: 3"},
		{with(func(m *Match) { m.Names[1] = "bridge, harbour" }), "cannot be told apart"},
		{with(func(m *Match) { m.Names[1] = "" }), "cannot be told apart"},
		{with(func(m *Match) { m.Lineup = nil }), "4 boards and no players"},
		{with(func(m *Match) { m.Lineup = m.Lineup[:3] }), "players of 3 boards: give 4, one pair for each board, or 8"},
		{with(func(m *Match) { m.Lineup[1][0] = m.Lineup[1][1] }), "pair 2"},
		{with(func(m *Match) { m.Stages = append(m.Stages, Stage{Kind: Blitz, Games: 5, Boards: 5}) }), "stage 2: 5 boards"},
	} {
		err := test.m.Check()
		if (err == nil) != (test.want == "") || err != nil && !strings.Contains(err.Error(), test.want) {
			t.Errorf("%+v: %v, want %q", test.m.Stages, err, test.want)
		}
	}
}

func TestKinds(t *testing.T) {
	for kind, want := range map[Kind]string{Regular: "regular", Rapid: "rapid", Blitz: "blitz", Armageddon: "armageddon"} {
		if kind.String() != want {
			t.Errorf("%d is called %q, want %q", kind, kind, want)
		}
	}
}
