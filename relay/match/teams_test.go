package match

import (
	"slices"
	"testing"
)

// harbour is a match of two teams over two rounds on four boards. All names are
// invented.
func harbour(played string) Match {
	return Match{
		Names: [2]string{"Harbour Bridge", "Old Mill"},
		Lineup: [][2]Player{
			{{"Castellane, Remi", 2500}, {"Ostrander, Wim", 2400}},
			{{"Dufresne, Aline", 2400}, {"Quillfeather, Ada", 2400}},
			{{"Ekwueme, Tobi", 2300}, {"Rasmuson, Frode", 2380}},
			{{"Fairweather, Una", 2200}, {"Szilvasi, Bence", 2000}},
		},
		Stages: []Stage{{Games: 8, Boards: 4, Opens: First, Results: results(played)}},
	}
}

// TestTeams: the first round ended 2½–1½; in the second two games are over, 1½–½. So it
// stands 4–2, with boards 2 and 3 to play: half a point wins, as worked out by hand.
func TestTeams(t *testing.T) {
	m := harbour("1===" + "=..1")
	if err := m.Check(); err != nil {
		t.Fatal(err)
	}
	s := m.Standing()
	if s.Score != (Tally{8, 4}) || s.ToClinch != (Tally{1, 5}) || s.ToLevel != (Tally{0, 4}) || s.Left != 2 {
		t.Errorf("%+v", s)
	}
	if got, want := m.Stages[0].ByRound(), []Tally{{5, 3}, {3, 1}}; !slices.Equal(got, want) {
		t.Errorf("rounds %v, want %v", got, want)
	}
	for _, board := range []int{5, 6} {
		first, _ := m.Meaning(0, board, First)
		second, _ := m.Meaning(0, board, Second)
		if got := says(first); !slices.Equal(got, []string{"win clinches", "draw enough"}) {
			t.Errorf("board %d, First: %q", first.Place.Board, got)
		}
		if got := says(second); !slices.Equal(got, []string{"must win"}) {
			t.Errorf("board %d, Second: %q", first.Place.Board, got)
		}
	}
	// With 3½–2½ a draw is not enough on either board: the other may be lost.
	m = harbour("1===" + "=..=")
	first, _ := m.Meaning(0, 5, First)
	if got := says(first); !slices.Equal(got, []string{"win clinches"}) || first.Draw.ToClinch != 1 {
		t.Errorf("4–3 leads to %q, %+v", got, first.Draw)
	}
	// Decided, but the last board is played all the same.
	m = harbour("1111" + "1..1")
	first, ok := m.Meaning(0, 6, First)
	if !ok || !slices.Equal(says(first), []string{"clinched"}) || len(m.ToCome()) != 2 {
		t.Errorf("6–0 says %q, to come %v", says(first), m.ToCome())
	}
}

// On odd boards the first team has White in the first round, and the other way round in
// the second (common practice, no source).
func TestToCome(t *testing.T) {
	got := harbour("1===" + "=..1").ToCome()
	want := []Place{{Game: 5, Round: 2, Board: 2, White: First}, {Game: 6, Round: 2, Board: 3, White: Second}}
	if !slices.Equal(got, want) {
		t.Errorf("teams: %+v, want %+v", got, want)
	}
	got = planned(bestOf(4, "1="), rapids).ToCome()
	want = []Place{{Game: 2, Round: 3, Board: 1, White: First}, {Game: 3, Round: 4, Board: 1, White: Second}}
	if !slices.Equal(got, want) {
		t.Errorf("best of four: %+v, want %+v", got, want)
	}
	got = planned(bestOf(4, "1==0"), rapids).ToCome()
	want = []Place{{Stage: 1, Round: 5, Board: 1, White: First}, {Stage: 1, Game: 1, Round: 6, Board: 1, White: Second}}
	if !slices.Equal(got, want) {
		t.Errorf("tie-break: %+v, want %+v", got, want)
	}
	given := Stage{Games: 4, Whites: []Side{First, Second, Second, First}}
	if got := planned(given).ToCome(); got[2].White != Second || got[3].White != First {
		t.Errorf("colours given: %+v", got)
	}
	if got := planned(Stage{Games: 2}).ToCome(); got[0].White != Neither || got[1].White != Neither {
		t.Errorf("colours not known: %+v", got)
	}
	if got := planned(bestOf(4, "11=")).ToCome(); got != nil {
		t.Errorf("a decided match has games to come: %+v", got)
	}
}

// TestForecast: differences 100, 0, 80 and 200 are .64, .50, .39 and .76 by the table.
func TestForecast(t *testing.T) {
	got, ok := harbour("1===" + "=..1").Forecast()
	if want := (Forecast{Rest: [2]Score{89, 111}, Total: [2]Score{489, 311}}); !ok || got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	got, ok = harbour("").Forecast()
	if want := (Forecast{Rest: [2]Score{458, 342}, Total: [2]Score{458, 342}}); !ok || got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	m := harbour("")
	m.Lineup[2][1].Rating = 0
	if _, ok := m.Forecast(); ok {
		t.Error("something is expected of a player without a rating")
	}
	if _, ok := planned(bestOf(2, "")).Forecast(); ok {
		t.Error("something is expected of players without ratings")
	}
	if _, ok := harbour("1===" + "====").Forecast(); ok {
		t.Error("something is expected of the rest when nothing is left")
	}
}

// A team that changes its players: the second round has other pairs.
func TestChangedLineup(t *testing.T) {
	m := harbour("")
	second := slices.Clone(m.Lineup)
	second[3][0] = Player{"Gallowglass, Ines", 2000}
	m.Lineup = append(slices.Clone(m.Lineup), second...)
	if err := m.Check(); err != nil {
		t.Fatal(err)
	}
	if got, _ := m.Forecast(); got.Rest != [2]Score{432, 368} { // .50 in place of .76
		t.Errorf("expected %v", got.Rest)
	}
}
