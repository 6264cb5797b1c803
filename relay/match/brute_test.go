package match

import (
	"math/rand/v2"
	"testing"
)

// ending is one way a match can end, found by playing all of it.
type ending struct {
	results [][]Result // by stage and game
	winner  Side
}

// endings plays every game without a result in every way. Stages that are not needed are
// filled too, which changes nothing.
func endings(m Match) []ending {
	results := make([][]Result, len(m.Stages))
	for i, stage := range m.Stages {
		results[i] = make([]Result, stage.Games)
		copy(results[i], stage.Results)
	}
	var out []ending
	var fill func()
	fill = func() {
		for _, stage := range results {
			for game, r := range stage {
				if r == Unknown {
					for _, way := range []Result{FirstWon, Drawn, SecondWon} {
						stage[game] = way
						fill()
					}
					stage[game] = Unknown
					return
				}
			}
		}
		full := make([][]Result, len(results))
		for i := range results {
			full[i] = append([]Result(nil), results[i]...)
		}
		for _, winner := range arbiter(m, full) {
			out = append(out, ending{full, winner})
		}
	}
	fill()
	return out
}

// arbiter says who has won, stage by stage and game by game, with points as arbiters
// count them. It gives two answers where a colour that is not known decides.
func arbiter(m Match, results [][]Result) []Side {
	for i, stage := range m.Stages {
		if stage.Kind == Armageddon {
			switch white := stage.White(0); {
			case results[i][0] == FirstWon:
				return []Side{First}
			case results[i][0] == SecondWon:
				return []Side{Second}
			case white == First:
				return []Side{Second}
			case white == Second:
				return []Side{First}
			}
			return []Side{First, Second}
		}
		first, second, enough := 0.0, 0.0, float64(stage.Games)/2
		for _, r := range results[i] {
			first += map[Result]float64{FirstWon: 1, Drawn: 0.5}[r]
			second += map[Result]float64{SecondWon: 1, Drawn: 0.5}[r]
			if stage.Race && (first >= enough) != (second >= enough) {
				break
			}
		}
		if first != second {
			return []Side{map[bool]Side{true: First, false: Second}[first > second]}
		}
	}
	return []Side{m.Favours}
}

// set is the outcomes of the endings that pass.
func set(all []ending, passes func(ending) bool) Outcomes {
	var out Outcomes
	for _, e := range all {
		if passes(e) {
			out |= 1 << e.winner
		}
	}
	return out
}

const mostOpen = 7 // games without a result: 3^7 endings

func randomMatch(r *rand.Rand) Match {
	m := Match{Names: [2]string{"Orsolya Vadnai", "Tiberiu Lascu"}, Favours: Side(r.IntN(3))}
	first := Stage{Games: 1 + r.IntN(6), Race: r.IntN(4) == 0, Opens: Side(r.IntN(3))}
	if r.IntN(4) == 0 {
		first.Race, first.Boards, first.Games = false, 2, 2+2*r.IntN(3)
		m.Lineup = [][2]Player{{{Name: "Orsolya Vadnai"}, {Name: "Tiberiu Lascu"}}, {{Name: "Eno Bakke"}, {Name: "Ugo Farina"}}}
	}
	m.Stages = append(m.Stages, first)
	open := first.Games
	for _, kind := range []Kind{Rapid, Blitz, Armageddon} {
		games := 1 + r.IntN(2)
		if kind == Armageddon {
			games = 1
		}
		if r.IntN(2) == 0 {
			m.Stages = append(m.Stages, Stage{Kind: kind, Games: games, Opens: Side(r.IntN(3))})
			open += games
		}
	}
	// Results from the front, so that later stages come into play, with gaps at times.
	level := r.IntN(2) == 0
	for i := range m.Stages {
		stage := &m.Stages[i]
		stage.Results = make([]Result, stage.Games)
		for game := range stage.Games {
			if open > mostOpen || r.IntN(5) > 0 && (i == 0 || level) {
				stage.Results[game] = [...]Result{FirstWon, Drawn, Drawn, SecondWon}[r.IntN(4)]
				open--
			}
		}
		if r.IntN(2) == 0 {
			break
		}
	}
	return m
}

// TestAgainstAllEndings compares everything said of a match with what is so in every
// ending, for random small matches.
func TestAgainstAllEndings(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 11))
	var said Meaning // which statements were made at all
	later, tieBreaks, large := 0, 0, 0
	for n := 0; n < 3000; n++ {
		m := randomMatch(r)
		if err := m.Check(); err != nil {
			t.Fatalf("%+v: %v", m, err)
		}
		all := endings(m)
		if len(all) >= 81 {
			large++
		}
		now := set(all, func(ending) bool { return true })
		s := m.Standing()
		if m.Possible() != now || s.Possible != now {
			t.Fatalf("%+v: possible %b, all endings give %b", m, m.Possible(), now)
		}
		if s.Stage > 0 {
			later++
		}
		compareNeeds(t, m, s, all)
		for game := range m.Stages[s.Stage].Games {
			for _, side := range []Side{First, Second} {
				g, ok := m.Meaning(s.Stage, game, side)
				if ok != (m.Stages[s.Stage].Result(game) == Unknown) {
					t.Fatalf("%+v: game %d has a meaning: %v", m, game, ok)
				}
				if ok {
					compareMeaning(t, m, g, all, now)
					said.count(g)
					tieBreaks += g.Draw.TieBreak
				}
			}
		}
	}
	t.Logf("%d matches with four games open or more, %d in tie-breaks", large, later)
	if large < 300 || later == 0 || tieBreaks == 0 || !(said.Clinched && said.Lost && said.WinClinches && said.DrawEnough && said.MustWin && said.MustNotLose && said.DrawsMatch) {
		t.Errorf("not everything came up: %d in tie-breaks, %d tie-breaks by a draw, %+v", later, tieBreaks, said)
	}
}

func (g *Meaning) count(other Meaning) {
	g.Clinched = g.Clinched || other.Clinched
	g.Lost = g.Lost || other.Lost
	g.WinClinches = g.WinClinches || other.WinClinches
	g.DrawEnough = g.DrawEnough || other.DrawEnough
	g.MustWin = g.MustWin || other.MustWin
	g.MustNotLose = g.MustNotLose || other.MustNotLose
	g.DrawsMatch = g.DrawsMatch || other.DrawsMatch
}

func compareMeaning(t *testing.T, m Match, g Meaning, all []ending, now Outcomes) {
	t.Helper()
	own, other := Outcomes(1<<g.Side), Outcomes(1<<g.Side.Other())
	with := func(r Result) Outcomes {
		return set(all, func(e ending) bool { return e.results[g.Place.Stage][g.Place.Game] == r })
	}
	win, loss := with(FirstWon), with(SecondWon)
	if g.Side == Second {
		win, loss = loss, win
	}
	draw := with(Drawn)
	if g.Win.Match != win || g.Draw.Match != draw || g.Loss.Match != loss {
		t.Fatalf("%+v game %+v: %b %b %b, all endings give %b %b %b", m, g.Place, g.Win.Match, g.Draw.Match, g.Loss.Match, win, draw, loss)
	}
	open := now != own && now != other && now != 1
	for name, pair := range map[string][2]bool{
		"clinched":       {g.Clinched, now == own},
		"lost":           {g.Lost, now == other},
		"a win clinches": {g.WinClinches, open && win == own},
		"draw enough":    {g.DrawEnough, open && draw == own},
		"must win":       {g.MustWin, open && draw == other && loss == other},
		"must not lose":  {g.MustNotLose, open && loss == other && draw != other},
		"a draw draws":   {g.DrawsMatch, open && draw == 1},
	} {
		if pair[0] != pair[1] {
			t.Fatalf("%+v, game %+v, side %d: %s is %v, all endings say %v", m, g.Place, g.Side, name, pair[0], pair[1])
		}
	}
}

// compareNeeds: with the points that are lacking every ending is won, with half a point
// less not every one.
func compareNeeds(t *testing.T, m Match, s Standing, all []ending) {
	t.Helper()
	stage := m.Stages[s.Stage]
	if stage.Kind == Armageddon || stage.Race {
		return // points are not made in halves; the order counts
	}
	for i, side := range []Side{First, Second} {
		gained := func(e ending) (gain Points) {
			for game, r := range e.results[s.Stage] {
				if stage.Result(game) == Unknown {
					gain += map[Result]Points{Drawn: 1, wonBy(side): 2}[r]
				}
			}
			return gain
		}
		reach := func(atLeast Points) Outcomes {
			return set(all, func(e ending) bool { return gained(e) >= atLeast })
		}
		if lacks := s.ToClinch[i]; reach(lacks)&^(1<<side) != 0 {
			t.Fatalf("%+v: side %d does not always win with %v", m, side, lacks)
		} else if lacks > 0 && lacks <= Points(2*s.Left) && reach(lacks-1) == 1<<side {
			t.Fatalf("%+v: side %d lacks less than %v", m, side, lacks)
		}
	}
}
