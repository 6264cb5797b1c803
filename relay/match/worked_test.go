package match

import (
	"slices"
	"testing"
)

// The rapid games may end level too, and nothing follows them: a drawn match.
const anything = Outcomes(1<<Neither | 1<<First | 1<<Second)

const (
	mira  = "Halloran, Mira"
	jonas = "Pettibone, Jonas"
)

// results reads "1", "=", "0" and "." as games won, drawn and lost by First, and open.
func results(text string) []Result {
	var out []Result
	for _, r := range text {
		out = append(out, map[rune]Result{'1': FirstWon, '=': Drawn, '0': SecondWon, '.': Unknown}[r])
	}
	return out
}

func planned(stages ...Stage) Match { return Match{Names: [2]string{mira, jonas}, Stages: stages} }

func bestOf(games int, played string) Stage {
	return Stage{Games: games, Opens: First, Results: results(played)}
}

var (
	rapids     = Stage{Kind: Rapid, Games: 2, Opens: First}
	armageddon = Stage{Kind: Armageddon, Games: 1, Opens: Second}
)

// says lists what a meaning says, to be compared with what was worked out by hand.
func says(g Meaning) []string {
	var out []string
	for _, s := range []struct {
		is   bool
		text string
	}{
		{g.Clinched, "clinched"}, {g.Lost, "lost"}, {g.WinClinches, "win clinches"}, {g.DrawEnough, "draw enough"},
		{g.MustWin, "must win"}, {g.MustNotLose, "must not lose"}, {g.DrawsMatch, "draw draws"},
		{g.Win.TieBreak > 0, "tie-break after win"}, {g.Draw.TieBreak > 0, "tie-break after draw"}, {g.Loss.TieBreak > 0, "tie-break after loss"},
	} {
		if s.is {
			out = append(out, s.text)
		}
	}
	return out
}

// TestWorkedExamples: common formats, worked out by hand for the next game.
func TestWorkedExamples(t *testing.T) {
	favoured := planned(bestOf(12, "=========="))
	favoured.Favours = First
	for _, test := range []struct {
		name          string
		m             Match
		first, second []string
	}{
		{"best of four, first game", planned(bestOf(4, ""), rapids), nil, nil},
		{"best of four, 1½–½", planned(bestOf(4, "1="), rapids), []string{"win clinches"}, []string{"must not lose"}},
		{"best of four, 2–0", planned(bestOf(4, "11"), rapids), []string{"win clinches", "draw enough"}, []string{"must win"}},
		{"best of four, 2–1", planned(bestOf(4, "110"), rapids),
			[]string{"win clinches", "draw enough", "tie-break after loss"}, []string{"must win", "tie-break after win"}},
		{"best of four, 1½–1½", planned(bestOf(4, "1=0"), rapids),
			[]string{"win clinches", "must not lose", "tie-break after draw"}, []string{"win clinches", "must not lose", "tie-break after draw"}},
		{"best of four, 2½–½", planned(bestOf(4, "11="), rapids), []string{"clinched"}, []string{"lost"}},
		{"best of two, first game", planned(bestOf(2, "")), nil, nil},
		{"best of two, 1–0", planned(bestOf(2, "1")), []string{"win clinches", "draw enough"}, []string{"must win"}},
		{"best of two, ½–½", planned(bestOf(2, "=")),
			[]string{"win clinches", "must not lose", "draw draws"}, []string{"win clinches", "must not lose", "draw draws"}},
		{"twelve games, 6–4", planned(bestOf(12, "11========")), []string{"win clinches", "draw enough"}, []string{"must win"}},
		{"twelve games, 6–5", planned(bestOf(12, "1==========")), []string{"win clinches", "draw enough"}, []string{"must win"}},
		{"first to six of twelve, 5½–4½", planned(Stage{Games: 12, Race: true, Results: results("1=========")}),
			[]string{"win clinches", "draw enough"}, []string{"must win"}},
		{"first to six of twelve, 5½–5½", planned(Stage{Games: 12, Race: true, Results: results("===========")}, rapids),
			[]string{"win clinches", "must not lose", "tie-break after draw"}, []string{"win clinches", "must not lose", "tie-break after draw"}},
		{"first to six of twelve, 6–5", planned(Stage{Games: 12, Race: true, Results: results("1==========")}), []string{"clinched"}, []string{"lost"}},
		{"twelve games, a drawn match favours First, 5–5", favoured, []string{"win clinches"}, []string{"must not lose"}},
		{"rapid, ½–½", planned(bestOf(2, "=="), Stage{Kind: Rapid, Games: 2, Results: results("=")}, armageddon),
			[]string{"win clinches", "must not lose", "tie-break after draw"}, []string{"win clinches", "must not lose", "tie-break after draw"}},
		{"armageddon, Second has White", planned(bestOf(2, "10"), armageddon),
			[]string{"win clinches", "draw enough", "must not lose"}, []string{"win clinches", "must win"}},
		{"armageddon, colours not drawn yet", planned(bestOf(2, "10"), Stage{Kind: Armageddon, Games: 1}),
			[]string{"win clinches", "must not lose"}, []string{"win clinches", "must not lose"}},
	} {
		if err := test.m.Check(); err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		stage := test.m.Standing().Stage
		game := slices.Index(append(test.m.Stages[stage].Results, make([]Result, test.m.Stages[stage].Games-len(test.m.Stages[stage].Results))...), Unknown)
		for side, want := range map[Side][]string{First: test.first, Second: test.second} {
			g, ok := test.m.Meaning(stage, game, side)
			if got := says(g); !ok || !slices.Equal(got, want) {
				t.Errorf("%s, side %d: %q, want %q", test.name, side, got, want)
			}
		}
	}
}

// TestFavoured: twelve games, all drawn so far; a drawn match leaves First the title.
func TestFavoured(t *testing.T) {
	m := planned(bestOf(12, "==========="))
	m.Favours = First
	first, _ := m.Meaning(0, 11, First)
	second, _ := m.Meaning(0, 11, Second)
	if got := says(first); !slices.Equal(got, []string{"win clinches", "draw enough", "must not lose"}) {
		t.Errorf("First: %q", got)
	}
	if got := says(second); !slices.Equal(got, []string{"win clinches", "must win"}) {
		t.Errorf("Second: %q", got)
	}
	if s := m.Standing(); s.ToClinch != (Tally{1, 2}) || s.ToLevel != (Tally{1, 1}) {
		t.Errorf("lacking %v and %v", s.ToClinch, s.ToLevel)
	}
}

func TestStanding(t *testing.T) {
	for _, test := range []struct {
		name string
		m    Match
		want Standing
	}{
		{"not begun", planned(bestOf(4, ""), rapids), Standing{Possible: anything, Left: 4, ToClinch: Tally{5, 5}, ToLevel: Tally{4, 4}}},
		{"2–1", planned(bestOf(4, "110"), rapids),
			Standing{Possible: anything, Score: Tally{4, 2}, Left: 1, ToClinch: Tally{1, 3}, ToLevel: Tally{0, 2}}},
		{"third game missing", planned(bestOf(4, "1=.0")),
			Standing{Possible: anything, Score: Tally{3, 3}, Left: 1, ToClinch: Tally{2, 2}, ToLevel: Tally{1, 1}}},
		{"drawn", planned(bestOf(2, "10")), Standing{Possible: only(Neither), Score: Tally{2, 2}, ToClinch: Tally{1, 1}}},
		{"tie-break", planned(bestOf(2, "10"), rapids, armageddon),
			Standing{Possible: only(First) | only(Second), Stage: 1, Left: 2, ToClinch: Tally{3, 3}, ToLevel: Tally{2, 2}}},
		{"won by Black's draw", planned(bestOf(2, "=="), Stage{Kind: Armageddon, Games: 1, Opens: Second, Results: results("=")}),
			Standing{Possible: only(First), Stage: 1, Score: Tally{2, 0}, ToClinch: Tally{0, 2}, ToLevel: Tally{0, 1}}},
	} {
		if got := test.m.Standing(); got != test.want {
			t.Errorf("%s: %+v, want %+v", test.name, got, test.want)
		}
	}
	if winner, decided := planned(bestOf(4, "11=")).Possible().Decided(); winner != First || !decided {
		t.Errorf("2½–½ of four: winner %d, decided %v", winner, decided)
	}
}

// TestAfter: best of four at 1½–1½, the score that each result of game four makes.
func TestAfter(t *testing.T) {
	m := planned(bestOf(4, "1=0"), rapids)
	g, _ := m.Meaning(0, 3, Second)
	if want := (After{Match: only(Second), Stage: only(Second), Own: 5, Other: 3}); g.Win != want {
		t.Errorf("a win: %+v, want %+v", g.Win, want)
	}
	if want := (After{Match: anything, Stage: only(Neither), Own: 4, Other: 4, ToClinch: 1, TieBreak: 1}); g.Draw != want {
		t.Errorf("a draw: %+v, want %+v", g.Draw, want)
	}
	if want := (After{Match: only(First), Stage: only(First), Own: 3, Other: 5, ToClinch: 2, ToLevel: 1}); g.Loss != want {
		t.Errorf("a loss: %+v, want %+v", g.Loss, want)
	}
	if len(m.Stages[0].Results) != 3 {
		t.Error("asking for a meaning has changed the match")
	}
	for _, not := range []struct {
		stage, game int
		side        Side
	}{{0, 2, First}, {0, 4, First}, {0, -1, First}, {1, 0, First}, {0, 3, Neither}} {
		if _, ok := m.Meaning(not.stage, not.game, not.side); ok {
			t.Errorf("%+v has a meaning", not)
		}
	}
}
