package match

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// fed is a feed of three finished games of a match of four and a fourth under way,
// among games of others. Mira Halloran won the first with Black.
func fed() []Game {
	return []Game{
		{"Pettibone, Jonas", "Halloran, Mira", "0-1", "1"},
		{"Brandvold, Sunniva", "Halloran, Mira", "0-1", "1"},
		{"Mira Halloran", "Jonas Pettibone", "1/2-1/2", "2"},
		{"PETTIBONE, JONAS", "HALLORAN, MIRA", "1-0", "3"},
		{"Halloran, Mira", "Pettibone, Jonas", "*", "4"},
		{"Brandvold, Sunniva", "Pettibone, Jonas", "1-0", "4"},
	}
}

func TestTake(t *testing.T) {
	m, taken := planned(Stage{Games: 4}, rapids).Take(fed())
	if want := results("1=0."); !slices.Equal(m.Stages[0].Results, want) || taken.Counted != 3 || taken.Unplaced != nil || taken.Contrary != nil {
		t.Errorf("%v, want %v; %+v", m.Stages[0].Results, want, taken)
	}
	for i, game := range fed() {
		place, ok := taken.Places[i]
		if want := game.White != "Brandvold, Sunniva"; ok != want {
			t.Errorf("%+v: of the match %v, want %v", game, ok, want)
		}
		if ok && (fmt.Sprint(place.Round) != game.Round || (place.White == First) != SameName(game.White, mira)) {
			t.Errorf("%+v is placed at %+v", game, place)
		}
	}
	if got := m.ToCome(); len(got) != 1 || got[0].White != First || m.Stages[0].White(0) != Second {
		t.Errorf("to come %+v", got)
	}
	if g, ok := m.Meaning(0, 3, First); !ok || !slices.Equal(says(g), []string{"win clinches", "must not lose", "tie-break after draw"}) {
		t.Errorf("%q", says(g))
	}
}

// TestTakeInAnyOrder: a game counts once, however often and in whatever order it comes,
// and taking the same feed again changes nothing.
func TestTakeInAnyOrder(t *testing.T) {
	plan := planned(Stage{Games: 4}, rapids)
	want, _ := plan.Take(fed())
	r := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		games := append(fed(), fed()...)
		games = append(games, Game{"Halloran, Mira", "Pettibone, Jonas", "*", "2"}) // a copy that is behind
		r.Shuffle(len(games), func(i, j int) { games[i], games[j] = games[j], games[i] })
		got, taken := plan.Take(games)
		if !reflect.DeepEqual(got, want) || taken.Counted != 3 {
			t.Fatalf("%+v of %v, want %+v; counted %d", got, games, want, taken.Counted)
		}
		if again, _ := got.Take(games); !reflect.DeepEqual(again, want) {
			t.Fatalf("again: %+v", again)
		}
	}
	if plan.Stages[0].Results != nil || plan.Stages[0].Opens != Neither {
		t.Error("the plan itself has changed")
	}
}

func TestTakeResults(t *testing.T) {
	const x, y = mira, jonas
	for _, test := range []struct {
		name     string
		stage    Stage
		games    []Game
		want     string
		unplaced int
		contrary int
	}{
		{"not finished", Stage{Games: 2}, []Game{{x, y, "*", "1"}, {x, y, "", "2"}}, "..", 0, 0},
		{"odd results", Stage{Games: 2}, []Game{{x, y, "1-0 ", "1"}, {x, y, "+-", "2"}}, "..", 0, 0},
		{"two results", Stage{Games: 2}, []Game{{x, y, "1-0", "1"}, {x, y, "0-1", "1"}, {x, y, "1-0", "1"}}, "..", 0, 1},
		{"planned result stands", Stage{Games: 2, Results: results("1")}, []Game{{x, y, "0-1", "1"}, {y, x, "0-1", "2"}}, "11", 0, 1},
		{"planned and same", Stage{Games: 2, Results: results("1")}, []Game{{x, y, "1-0", "1"}}, "1.", 0, 0},
		{"planned and under way", Stage{Games: 2, Results: results("=")}, []Game{{x, y, "*", "1"}}, "=.", 0, 0},
		{"no round", Stage{Games: 2}, []Game{{x, y, "1-0", "?"}, {x, y, "1-0", ""}}, "..", 2, 0},
		{"round not planned", Stage{Games: 2}, []Game{{x, y, "1-0", "3"}}, "..", 1, 0},
		{"rounds of the plan", Stage{Games: 2, Rounds: []string{"4", "13"}}, []Game{{x, y, "1-0", "13"}, {x, y, "0-1", "1"}}, ".1", 1, 0},
		{"round and game", Stage{Games: 2}, []Game{{x, y, "1-0", "3.1"}, {y, x, "1-0", "3.2"}}, "10", 0, 0},
		{"round and board", Stage{Games: 2}, []Game{{x, y, "1-0", "1.4"}, {y, x, "1-0", "2.4"}}, "10", 0, 0},
		{"one of either", Stage{Games: 2}, []Game{{x, y, "1-0", "2.1"}}, "..", 1, 0},
		{"rounds, boards and games", Stage{Games: 2}, []Game{{x, y, "1-0", "1.1"}, {x, y, "1-0", "1.2"}, {x, y, "1-0", "2.1"}}, "..", 3, 0},
		{"some without", Stage{Games: 2}, []Game{{x, y, "1-0", "2.1"}, {x, y, "1-0", "2.2"}, {x, y, "1-0", "?"}}, "..", 3, 0},
		{"both the same", Stage{Games: 2}, []Game{{x, y, "1-0", "1.1"}}, "1.", 0, 0},
		{"one game", Stage{Games: 1}, []Game{{x, y, "1-0", "7.3"}}, "1", 0, 0},
		{"nobody", Stage{Games: 1}, []Game{{"?", "?", "1-0", "1"}, {"", "", "1-0", "1"}, {x, "", "1-0", "1"}}, ".", 0, 0},
	} {
		m, taken := planned(test.stage).Take(test.games)
		if err := m.Check(); err != nil {
			t.Errorf("%s: %v", test.name, err)
		}
		if !slices.Equal(m.Stages[0].Results, results(test.want)) || len(taken.Unplaced) != test.unplaced || len(taken.Contrary) != test.contrary {
			t.Errorf("%s: %v, want %v; %+v", test.name, m.Stages[0].Results, results(test.want), taken)
		}
	}
}

// Tie-breaks go on with the numbers of the rounds; who has White in an armageddon is
// known as soon as the feed has the game.
func TestTakeTieBreaks(t *testing.T) {
	plan := planned(Stage{Games: 2}, Stage{Kind: Rapid, Games: 2}, Stage{Kind: Armageddon, Games: 1})
	m, _ := plan.Take([]Game{
		{mira, jonas, "1/2-1/2", "1"}, {jonas, mira, "1/2-1/2", "2"},
		{jonas, mira, "1-0", "3"}, {mira, jonas, "1-0", "4"}, {jonas, mira, "*", "5"},
	})
	g, ok := m.Meaning(2, 0, First)
	if !ok || g.Place.White != Second || !g.DrawEnough {
		t.Errorf("%+v", g)
	}
	if m.Stages[1].White(0) != Second || m.Stages[0].White(0) != First {
		t.Error("colours of one stage have changed those of another")
	}
	given := planned(Stage{Games: 2, Whites: []Side{First, Second}})
	m, _ = given.Take([]Game{{mira, jonas, "*", "2"}})
	if !slices.Equal(m.Stages[0].Whites, []Side{First, First}) || given.Stages[0].Whites[1] != Second {
		t.Errorf("colours %v, planned %v", m.Stages[0].Whites, given.Stages[0].Whites)
	}
}

// The colours are those of the copy that is finished, whichever comes first.
func TestTakeColours(t *testing.T) {
	ended, behind := Game{jonas, mira, "1/2-1/2", "1"}, Game{mira, jonas, "*", "1"}
	for _, games := range [][]Game{{ended, behind}, {behind, ended}} {
		if m, _ := planned(bestOf(2, "")).Take(games); m.Stages[0].White(0) != Second || m.Stages[0].White(1) != First {
			t.Errorf("%v: %+v", games, m.Stages[0])
		}
	}
	m, _ := planned(Stage{Games: 4}).Take([]Game{{mira, jonas, "*", "1"}, {mira, jonas, "*", "2"}})
	if m.Stages[0].Opens != First {
		t.Error("the first game that the feed has does not lead")
	}
}

func TestTakeTeams(t *testing.T) {
	plan := harbour("")
	var games []Game
	for i, result := range []string{"1-0", "1/2-1/2", "0-1", "*"} {
		pair := plan.Lineup[i]
		white, black := pair[0].Name, pair[1].Name
		if i%2 == 1 {
			white, black = black, white
		}
		games = append(games, Game{white, black, result, "1." + string(rune('1'+i))}, Game{black, white, result, "2"})
	}
	m, taken := plan.Take(games)
	if want := results("1=0.0=1."); !slices.Equal(m.Stages[0].Results, want) || taken.Counted != 6 {
		t.Errorf("%v, want %v; %+v", m.Stages[0].Results, want, taken)
	}
	// One round: the players alone tell the game.
	plan.Stages[0].Games = 4
	m, taken = plan.Take([]Game{{plan.Lineup[1][1].Name, plan.Lineup[1][0].Name, "1-0", "5.2"}})
	if want := results(".0.."); !slices.Equal(m.Stages[0].Results, want) || taken.Counted != 1 {
		t.Errorf("%v, want %v; %+v", m.Stages[0].Results, want, taken)
	}
	_, taken = harbour("").Take([]Game{{plan.Lineup[1][0].Name, plan.Lineup[1][1].Name, "1-0", "2.3"}})
	if len(taken.Unplaced) != 1 {
		t.Errorf("round 2.3, said of board 2, has been placed: %+v", taken)
	}
}

func TestSameName(t *testing.T) {
	for _, test := range []struct {
		a, b string
		want bool
	}{
		{"Halloran, Mira", "Mira Halloran", true}, {"Halloran,Mira", "halloran  MIRA", true},
		{"Tveit-Ås, Håkon", "HÅKON TVEIT-ÅS", true}, {"Œuvrard, Zoé", "zoÉ œuvrard", true}, {"Παππάς, Νίκος", "ΝΊΚΟΣ ΠΑΠΠΆΣ", true},
		{"Halloran, Mira", "Halloran, Mia", false}, {"Halloran, Mira", "Halloran", false}, {"Halloran, Mira", "Halloran, M.", false},
		{"Ås, Håkon", "As, Hakon", false}, {"", "", false}, {"?", "?", false}, {"7", "7", false}, {"Ann Ann Lee", "Ann Lee", false},
	} {
		if SameName(test.a, test.b) != test.want || SameName(test.b, test.a) != test.want {
			t.Errorf("%q and %q: want %v", test.a, test.b, test.want)
		}
	}
}
