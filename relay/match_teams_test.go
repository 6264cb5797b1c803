package relay_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/match"
	"clocktell/relay/prompt"
	"clocktell/relay/relaytest"
)

// pairs are the players of two teams, First's and Second's by board.
var pairs = [][2]string{{"Castellane, Remi", "Ostrander, Wim"}, {"Dufresne, Aline", "Quillfeather, Ada"}, {"Ekwueme, Tobi", "Rasmuson, Frode"}, {"Fairweather, Una", "Szilvasi, Bence"}}

// harbour is a match of two teams over one round on four boards.
func harbour() *match.Match {
	m := &match.Match{Names: [2]string{"Harbour Bridge", "Old Mill"}, Stages: []match.Stage{{Games: 4, Boards: 4}}}
	for _, pair := range pairs {
		m.Lineup = append(m.Lineup, [2]match.Player{{Name: pair[0]}, {Name: pair[1]}})
	}
	return m
}

// boards are the games of a round, First with White on odd boards, with these results,
// and the moves played on all.
func boards(moves string, results ...string) string {
	var games []relaytest.Game
	for i, result := range results {
		g := relaytest.Game{White: pairs[i][0], Black: pairs[i][1], Table: fmt.Sprint(i + 1), Moves: moves, Result: result}
		if i%2 == 1 {
			g.White, g.Black = g.Black, g.White
		}
		games = append(games, g)
	}
	return relaytest.Packet(games...)
}

// TestMatchOfTeams: board 1 is won by Harbour Bridge, then 2 too, by Black, then 3 is
// drawn: two and a half of four.
func TestMatchOfTeams(t *testing.T) {
	s := matchStage(harbour())
	s.Take(boards(six, "*", "*", "*", "*"))
	wantSaid(t, s, "all under way")
	s.Wait(time.Minute)
	s.Take(boards(six, "1-0", "*", "*", "*"))
	wantSaid(t, s, "one", "1  Harbour Bridge leads one to nothing with three games to play.")
	s.Wait(time.Minute)
	s.Take(boards(six, "1-0", "0-1", "*", "*"))
	wantSaid(t, s, "two", "3  A draw on either board wins the match for Harbour Bridge.",
		"2  Harbour Bridge leads two to nothing with two games to play.")
	s.Wait(time.Minute)
	s.Take(boards(six, "1-0", "0-1", "1/2-1/2", "*"))
	wantSaid(t, s, "three", "3  Harbour Bridge has won the match with one game still to play.")
	if got := s.Show.Match.Stands; got.Score != (match.Tally{5, 1}) || got.Winner != match.First {
		t.Errorf("%+v", got)
	}
}

// TestMatchSaysLittle: whatever happens on the other boards, no more than two things are
// said of what a game means, and the third is not raised on the panel.
func TestMatchSaysLittle(t *testing.T) {
	s := matchStage(harbour())
	texts := make(map[string]bool)
	for _, results := range [][]string{
		{"1-0", "0-1", "*", "*"}, // Harbour Bridge 2–0: a draw is enough on board 3
		{"1-0", "*", "*", "*"},
		{"0-1", "1-0", "*", "*"}, // Old Mill 2–0
		{"*", "1-0", "*", "*"},
		{"1-0", "1-0", "*", "1-0"}, // 1–2: Old Mill has enough with a draw
		{"1-0", "0-1", "*", "1-0"}, // 2–1
		{"1-0", "1/2-1/2", "*", "1-0"},
	} {
		s.Take(boards(six, results...))
		s.Same(time.Minute)
		for _, item := range s.Show.Said.Items {
			if item.Board == 3 && item.Kind == prompt.KindMatch {
				texts[item.Text] = true
			}
		}
	}
	if len(texts) != 2 {
		t.Errorf("of game 3 the panel says %v", texts)
	}
}

// TestMatchKeepsFinishedGames: a game that its board no longer shows still counts, and as
// it is now when it comes again.
func TestMatchKeepsFinishedGames(t *testing.T) {
	s := matchStage(duel(""))
	first := relaytest.Game{White: mira, Black: jonas, Round: "1", Moves: six, Result: "1-0"}
	s.Take(relaytest.Packet(first))
	s.Take(relaytest.Packet(relaytest.Game{White: jonas, Black: mira, Round: "2", Moves: six}))
	if got := score(s); got != "1–0" || len(s.Show.Boards) != 1 {
		t.Errorf("%s on %d boards", got, len(s.Show.Boards))
	}
	first.Result = "1/2-1/2"
	s.Take(relaytest.Packet(relaytest.Game{White: jonas, Black: mira, Round: "2", Moves: six}, first))
	if got := score(s); got != "½–½" {
		t.Errorf("corrected: %s", got)
	}
}

// TestMatchInGerman: the same occasions in the other language.
func TestMatchInGerman(t *testing.T) {
	plan := relaytest.Plan()
	plan.Match, plan.Language = duel("110"), "de"
	s := relaytest.NewStageOf(plan)
	s.Take(relaytest.Packet(relaytest.Game{White: jonas, Black: mira, Round: "4", Moves: six}))
	wantSaid(t, s, "under way", "1 black Für Halloran reicht ein Remis; gewinnt Pettibone, folgt ein Stichkampf im Schnellschach.")
	game, _ := s.Show.Match.Game(1)
	if want := []string{"2–2, es folgt ein Stichkampf im Schnellschach", "2½–1½, Halloran gewinnt den Wettkampf", "3–1, Halloran gewinnt den Wettkampf"}; !slices.Equal(game.After, want) {
		t.Errorf("%q", game.After)
	}
}

// TestMatchFolds: the same events give the same match, however time was cut.
func TestMatchFolds(t *testing.T) {
	play := func(step time.Duration) *relaytest.Stage {
		s := matchStage(harbour())
		wait := func() {
			for range 30 * time.Second / step {
				s.Wait(step)
			}
		}
		for _, results := range [][]string{{"*", "*", "*", "*"}, {"1-0", "*", "*", "*"}, {"1-0", "*", "1-0", "*"}, {"1/2-1/2", "*", "1-0", "*"}} {
			s.Take(boards(six, results...))
			wait()
		}
		s.Enter(relay.ByHand{Board: 2, Act: relay.ActResult, Text: "0-1"})
		wait()
		return s
	}
	one, other := play(30*time.Second), play(time.Second)
	if !reflect.DeepEqual(one.Show.Match, other.Show.Match) || !slices.Equal(said(one), said(other)) || len(said(one)) == 0 {
		t.Errorf("%+v and %+v; %q and %q", one.Show.Match, other.Show.Match, said(one), said(other))
	}
	for _, text := range said(one) {
		if !strings.Contains(text, "Harbour Bridge") {
			t.Errorf("%q does not name the team that leads", text)
		}
	}
}
