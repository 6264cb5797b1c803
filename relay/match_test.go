package relay_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/match"
	"clocktell/relay/prompt"
	"clocktell/relay/relaytest"
)

// The players and teams of these tests are invented; what each result means was worked
// out by hand.
const (
	mira  = "Halloran, Mira"
	jonas = "Pettibone, Jonas"
	six   = "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5" // six moves of each: the game is under way
)

// duel is a match of four games with two rapid games behind it.
func duel(results string) *match.Match {
	m := &match.Match{Names: [2]string{mira, jonas}, Stages: []match.Stage{{Games: 4}, {Kind: match.Rapid, Games: 2}}}
	for _, r := range results {
		m.Stages[0].Results = append(m.Stages[0].Results, map[rune]match.Result{'1': match.FirstWon, '=': match.Drawn, '0': match.SecondWon}[r])
	}
	return m
}

func matchStage(m *match.Match) *relaytest.Stage {
	plan := relaytest.Plan()
	plan.Match = m
	return relaytest.NewStageOf(plan)
}

// said lists what stands on the panel about the match, the newest first.
func said(s *relaytest.Stage) []string {
	var out []string
	for _, item := range s.Show.Said.Items {
		if item.Kind == prompt.KindMatch && item.Withdrawn.IsZero() {
			out = append(out, fmt.Sprintf("%d %s %s", item.Board, item.Alert.Side, item.Text))
		}
	}
	return out
}

func wantSaid(t *testing.T, s *relaytest.Stage, when string, want ...string) {
	t.Helper()
	if got := said(s); !slices.Equal(got, want) {
		t.Errorf("%s: the panel says %q, want %q", when, got, want)
	}
}

func score(s *relaytest.Stage) string {
	return fmt.Sprintf("%v–%v", s.Show.Match.Stands.Score[0], s.Show.Match.Stands.Score[1])
}

// TestMatchOfTwo follows a match through its games on one board, with the colours
// alternating: the feed has no other game than the one being played.
func TestMatchOfTwo(t *testing.T) {
	s := matchStage(duel(""))
	play := func(round int, result string) {
		g := relaytest.Game{White: mira, Black: jonas, Round: fmt.Sprint(round), Moves: six}
		if round%2 == 0 {
			g.White, g.Black = g.Black, g.White
		}
		s.Take(relaytest.Packet(g))
		if result != "" {
			s.Wait(time.Minute)
			g.Result = result
			s.Take(relaytest.Packet(g))
		}
	}
	play(1, "")
	wantSaid(t, s, "game one under way")
	play(1, "1-0")
	wantSaid(t, s, "game one", "1  Halloran leads one to nothing with three games to play.")
	if got, want := s.Show.Match.ToCome, []string{"round 2: Pettibone has White", "round 3: Halloran has White", "round 4: Pettibone has White"}; !slices.Equal(got, want) {
		t.Errorf("to come %q, want %q", got, want)
	}
	play(2, "")
	wantSaid(t, s, "game two under way")
	play(2, "1-0")
	wantSaid(t, s, "game two", "1  The match is level at one all with two games to play.")
	play(3, "")
	wantSaid(t, s, "game three under way")
	play(3, "1-0")
	wantSaid(t, s, "game three", "1  Halloran leads two to one with one game to play.")
	play(4, "")
	wantSaid(t, s, "game four under way", "1 black A draw is enough for Halloran; Pettibone must win to force a rapid tie-break.")
	game, _ := s.Show.Match.Game(1)
	if want := []string{"2–2, a rapid tie-break follows", "2½–1½, Halloran wins the match", "3–1, Halloran wins the match"}; !slices.Equal(game.After, want) {
		t.Errorf("game four brings %q, want %q", game.After, want)
	}
	play(4, "1-0")
	wantSaid(t, s, "game four", "1  The match is level at two all; a rapid tie-break follows.")
	if got := score(s); got != "2–2" || s.Show.Match.Line != "The match is level at two all; a rapid tie-break follows." {
		t.Errorf("%s, %q", got, s.Show.Match.Line)
	}
	play(5, "")
	wantSaid(t, s, "game five under way")
	play(5, "1/2-1/2")
	wantSaid(t, s, "game five", "1  The tie-break is level at half a point each with one game to play.")
	play(6, "")
	wantSaid(t, s, "game six under way", "1  Whoever wins this game wins the match; a draw leaves it drawn.")
	play(6, "0-1")
	wantSaid(t, s, "game six", "1  Halloran has won the match in the tie-break.")
	if got := s.Show.Said.Items[0]; got.Priority != prompt.Now {
		t.Errorf("the end of the match is said with priority %q", got.Priority)
	}
}

// TestMatchDecidedEarly: nothing is at stake once a side has more than half, and the
// sentence of a finished game stands until the next begins.
func TestMatchDecidedEarly(t *testing.T) {
	s := matchStage(duel("11"))
	g := relaytest.Game{White: mira, Black: jonas, Round: "3", Moves: six}
	s.Take(relaytest.Packet(g))
	wantSaid(t, s, "two up", "1 white A draw is enough for Halloran to win the match; Pettibone must win.")
	g.Result = "1/2-1/2"
	s.Take(relaytest.Packet(g))
	wantSaid(t, s, "decided", "1  Halloran has won the match with a game to spare.")
	if len(s.Show.Match.ToCome) != 0 {
		t.Errorf("to come %q", s.Show.Match.ToCome)
	}
	s.Take(relaytest.Packet(relaytest.Game{White: jonas, Black: mira, Round: "4", Moves: six}))
	wantSaid(t, s, "a game that decides nothing")
	if game, ok := s.Show.Match.Game(1); !ok || len(game.After) != 3 || !strings.HasSuffix(game.After[2], "Halloran wins the match") {
		t.Errorf("the game brings %q", game.After)
	}
}

// TestMatchCorrected: a result that is corrected, by the feed or by hand, counts as it
// stands, and one that is taken back counts no longer.
func TestMatchCorrected(t *testing.T) {
	s := matchStage(duel("1="))
	g := relaytest.Game{White: mira, Black: jonas, Round: "3", Moves: six}
	s.Take(relaytest.Packet(g))
	atStake := "1 white A win here takes the match for Halloran; Pettibone must not lose."
	wantSaid(t, s, "before", atStake)
	for _, test := range []struct{ result, score, says string }{
		{"0-1", "1½–1½", "1  The match is level at one and a half each with one game to play."},
		{"1/2-1/2", "2–1", "1  Halloran leads two to one with one game to play."},
		{"*", "1½–½", atStake},
		{"1-0", "2½–½", "1  Halloran has won the match with a game to spare."},
	} {
		s.Wait(time.Second)
		g.Result = test.result
		s.Take(relaytest.Packet(g))
		s.Same(12 * time.Second) // a text that was there before is believed if the feed keeps to it
		if got := score(s); got != test.score {
			t.Errorf("%s: %s, want %s", test.result, got, test.score)
		}
		wantSaid(t, s, test.result, test.says)
	}
	s.Wait(relaytestLong)
	for _, test := range []struct{ result, score string }{{"0-1", "1½–1½"}, {"*", "1½–½"}, {"1/2-1/2", "2–1"}} {
		if refused := s.Enter(relay.ByHand{Board: 1, Act: relay.ActResult, Text: test.result}); refused != "" {
			t.Fatal(refused)
		}
		if got := score(s); got != test.score {
			t.Errorf("%s by hand: %s, want %s", test.result, got, test.score)
		}
	}
	wantSaid(t, s, "at last", "1  Halloran leads two to one with one game to play.")
}

// relaytestLong is long enough for a sentence to be said again.
const relaytestLong = 10 * time.Minute

// TestMatchByHandWhileSilent: a result entered while the feed says nothing is news.
func TestMatchByHandWhileSilent(t *testing.T) {
	s := matchStage(duel("=="))
	s.Take(relaytest.Packet(relaytest.Game{White: mira, Black: jonas, Round: "3", Moves: six}))
	s.Wait(time.Minute)
	if s.Board(1).Silent.IsZero() {
		t.Fatal("the feed is not silent")
	}
	s.Enter(relay.ByHand{Board: 1, Act: relay.ActResult, Text: "1-0"})
	wantSaid(t, s, "entered", "1  Halloran leads two to one with one game to play.")
}

// TestMatchOfOthers: games of others, and of the players in a round that is not of the
// match, change nothing.
func TestMatchOfOthers(t *testing.T) {
	s := matchStage(duel(""))
	s.Take(relaytest.Packet(
		relaytest.Game{White: mira, Black: "Brandvold, Sunniva", Round: "1", Moves: six},
		relaytest.Game{White: jonas, Black: mira, Round: "9", Moves: six},
		relaytest.Game{White: "PETTIBONE, JONAS", Black: "Mira Halloran", Round: "2", Moves: six}))
	s.Take(relaytest.Packet(
		relaytest.Game{White: mira, Black: "Brandvold, Sunniva", Round: "1", Moves: six, Result: "1-0"},
		relaytest.Game{White: jonas, Black: mira, Round: "9", Moves: six, Result: "1-0"},
		relaytest.Game{White: "PETTIBONE, JONAS", Black: "Mira Halloran", Round: "2", Moves: six, Result: "1-0"}))
	if got := score(s); got != "0–1" || !slices.Equal(s.Show.Match.Unplaced, []int{2}) {
		t.Errorf("%s, without a place %v", got, s.Show.Match.Unplaced)
	}
	wantSaid(t, s, "one game of the match", "3  Pettibone leads one to nothing with three games to play.")
	if got := notesOf(s.Show, relay.NoteUncounted); len(got) != 1 || got[0].Board != 2 || got[0].Is != "round 9" || got[0].Text == "" {
		t.Errorf("the log says %+v of what does not count", got)
	}
	s.Take(relaytest.Packet(
		relaytest.Game{White: mira, Black: "Brandvold, Sunniva", Round: "1", Moves: six, Result: "1-0"},
		relaytest.Game{White: jonas, Black: mira, Round: "3", Moves: six, Result: "1-0"},
		relaytest.Game{White: "PETTIBONE, JONAS", Black: "Mira Halloran", Round: "2", Moves: six, Result: "1-0"}))
	if got := notesOf(s.Show, relay.NoteUncounted); score(s) != "0–2" || len(got) != 2 || got[1].Is != "" || got[1].Was != "round 9" {
		t.Errorf("%s; the log says %+v once the round is mended", score(s), got)
	}
}

// TestMatchOfTwoResults: of a game that two boards show with two results none counts, and
// the log says so, once.
func TestMatchOfTwoResults(t *testing.T) {
	s := matchStage(duel(""))
	twice := func(first, second string) {
		s.Take(relaytest.Packet(
			relaytest.Game{White: mira, Black: jonas, Round: "1", Table: "1", Moves: six, Result: first},
			relaytest.Game{White: mira, Black: jonas, Round: "1", Table: "2", Moves: "d4 d5", Result: second}))
	}
	twice("1-0", "*")
	twice("1-0", "0-1")
	twice("1-0", "1/2-1/2")
	if got := notesOf(s.Show, relay.NoteUncounted); score(s) != "0–0" || len(got) != 1 || got[0].Board != 1 || got[0].Is != "round 1" {
		t.Errorf("%s; the log says %+v", score(s), got)
	}
}

// TestMatchFoundFinished: results that were there before are the score, and no news.
func TestMatchFoundFinished(t *testing.T) {
	s := matchStage(duel(""))
	s.Take(relaytest.Packet(
		relaytest.Game{White: mira, Black: jonas, Round: "1", Moves: six, Result: "1-0"},
		relaytest.Game{White: jonas, Black: mira, Round: "2", Moves: six, Result: "0-1"},
		relaytest.Game{White: mira, Black: jonas, Round: "3", Moves: "e4"}))
	if got := score(s); got != "2–0" {
		t.Errorf("%s", got)
	}
	wantSaid(t, s, "too early to say")
	s.Take(relaytest.Packet(
		relaytest.Game{White: mira, Black: jonas, Round: "1", Moves: six, Result: "1-0"},
		relaytest.Game{White: jonas, Black: mira, Round: "2", Moves: six, Result: "0-1"},
		relaytest.Game{White: mira, Black: jonas, Round: "3", Moves: six}))
	wantSaid(t, s, "under way", "3 white A draw is enough for Halloran to win the match; Pettibone must win.")
}

// TestNoMatch: without a plan nothing is said, and there is no match.
func TestNoMatch(t *testing.T) {
	s := relaytest.NewStage()
	g := relaytest.Game{White: mira, Black: jonas, Round: "4", Moves: six}
	s.Take(relaytest.Packet(g))
	g.Result = "1-0"
	s.Take(relaytest.Packet(g))
	if s.Show.Match != nil {
		t.Errorf("%+v", s.Show.Match)
	}
	if _, ok := s.Show.Match.Game(1); ok {
		t.Error("board 1 is of a match")
	}
	wantSaid(t, s, "no match")
	for _, line := range s.Show.Log.After(0) {
		if strings.HasPrefix(line.Is, "match") {
			t.Errorf("the log tells of %+v", line)
		}
	}
}

// TestMatchIsNotWorkedOutPerPly: a move, a clock and time leave it as it is.
func TestMatchIsNotWorkedOutPerPly(t *testing.T) {
	s := matchStage(duel("1="))
	s.Take(relaytest.Packet(relaytest.Game{White: mira, Black: jonas, Round: "3", Moves: "e4"}))
	was, rev := s.Show.Match, s.Show.HeadRev
	s.Take(relaytest.Packet(relaytest.Game{White: mira, Black: jonas, Round: "3", Moves: six, Clocks: []string{"0:10:00"}}))
	s.Same(time.Minute)
	if s.Show.Match != was || s.Show.HeadRev != rev {
		t.Error("the match was worked out for a move")
	}
	s.Take(relaytest.Packet(relaytest.Game{White: mira, Black: jonas, Round: "4", Moves: six}))
	if s.Show.Match == was {
		t.Error("another round changed nothing")
	}
}

// TestMatchRatings: the ratings of the feed are taken where the plan has none. By FIDE's
// table a difference of 50 is .57 to .43; see relay/match.
func TestMatchRatings(t *testing.T) {
	s := matchStage(duel("1="))
	text := relaytest.Packet(relaytest.Game{White: mira, Black: jonas, Round: "3", Moves: six})
	s.Take(text)
	if got := s.Show.Match.Expected; got != "" {
		t.Errorf("without ratings %q", got)
	}
	text = strings.Replace(text, "[White ", "[WhiteElo \"2510\"]\n[BlackElo \"2460\"]\n[White ", 1)
	s.Take(text)
	want := "the ratings expect 1.14 of 2 for Halloran, 0.86 for Pettibone"
	if got := s.Show.Match.Expected; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	plan := duel("1=")
	plan.Lineup = [][2]match.Player{{{Name: mira, Rating: 2460}, {Name: jonas, Rating: 2510}}}
	s = matchStage(plan)
	s.Take(text)
	if got := s.Show.Match.Expected; !strings.HasPrefix(got, "the ratings expect 0.86 of 2 for Halloran") {
		t.Errorf("with ratings in the plan %q", got)
	}
}
