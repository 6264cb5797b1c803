package prompt

import (
	"strings"
	"testing"
	"unicode"

	"clocktell/relay/match"
)

// The sides of these tests are invented; one name is as long as names get.
var (
	players   = [2]string{"Halloran", "Pettibone"}
	longNames = [2]string{"Przybyszewska-Hollenbach van der Achterkamp", "The Chess Friends of Upper Velmarin"}
)

// everyMatch returns every occasion that a match gives, of sides with these names.
func everyMatch(in Language, names [2]string, teams bool) (out []Prompt) {
	kinds := []match.Kind{match.Regular, match.Rapid, match.Blitz, match.Armageddon}
	now := MatchScore{Names: names, Teams: teams, Score: match.Tally{5, 3}, Left: 2, Rated: true, Expected: [2]match.Score{127, 73}}
	for _, side := range []match.Side{match.First, match.Second} {
		for _, boards := range []int{0, 1, 2, 5} {
			for _, then := range []Then{ThenOn, ThenTieBreak, ThenDrawn, ThenOther} {
				for _, next := range kinds {
					out = append(out, MatchStake(in, Stake{Case: DrawEnough, Side: side, Then: then, Next: next, Now: now, Boards: boards}))
				}
			}
			out = append(out, MatchStake(in, Stake{Case: WinTakes, Side: side, Now: now, Boards: boards}))
		}
	}
	for _, then := range []Then{ThenOn, ThenTieBreak, ThenDrawn} {
		for _, next := range kinds {
			out = append(out, MatchStake(in, Stake{Case: WinnerTakes, Then: then, Next: next, Now: now}))
		}
	}
	for _, tally := range []match.Tally{{0, 0}, {1, 1}, {2, 0}, {1, 3}, {4, 4}, {5, 3}, {5, 5}, {43, 39}, {39, 43}, {41, 41}} {
		for _, left := range []int{0, 1, 2, 21} {
			for _, tie := range []bool{false, true} {
				m := MatchScore{Names: names, Teams: teams, Score: tally, Left: left, TieBreak: tie}
				for _, winner := range []match.Side{match.First, match.Second, match.Neither} {
					over := m
					over.Over, over.Winner = true, winner
					out = append(out, MatchStands(in, over))
				}
				if left > 0 {
					out = append(out, MatchStands(in, m))
				} else if tally[0] == tally[1] {
					for _, next := range kinds {
						more := m
						more.More, more.Next = true, next
						out = append(out, MatchStands(in, more))
					}
				}
			}
		}
	}
	return out
}

// TestMatchSpeakable: one sentence of at most fifteen words, however long names are, and
// everything that a card needs.
func TestMatchSpeakable(t *testing.T) {
	said := 0
	for _, in := range languages {
		for _, names := range [][2]string{players, {"Harbour Bridge", "Old Mill"}, longNames} {
			for _, teams := range []bool{false, true} {
				for _, p := range everyMatch(in, names, teams) {
					said++
					checkMatchSentence(t, p, names == longNames)
				}
			}
		}
	}
	if said < 1000 {
		t.Errorf("only %d sentences were looked at", said)
	}
}

func checkMatchSentence(t *testing.T, p Prompt, long bool) {
	most := 15
	if long {
		most = 18 // a name of six words in the shortest sentence there is
	}
	if n := len(strings.Fields(p.Text)); n > most {
		t.Errorf("%q has %d words", p.Text, n)
	}
	if !strings.HasSuffix(p.Text, ".") || strings.Count(p.Text, ".") != 1 || !unicode.IsUpper([]rune(p.Text)[0]) {
		t.Errorf("%q is not one sentence", p.Text)
	}
	if strings.ContainsFunc(p.Text, unicode.IsDigit) || strings.Contains(p.Text, "½") || strings.Contains(p.Text, "%!") || strings.Contains(p.Text, "  ") {
		t.Errorf("%q has figures where there are words for them, or a gap", p.Text)
	}
	if p.Evidence == "" || p.Ends == "" || p.Kind != KindMatch || p.Priority == Silent {
		t.Errorf("%q lacks something: %+v", p.Text, p)
	}
}

// TestMatchForeign: nothing English is in the German sentences.
func TestMatchForeign(t *testing.T) {
	english := make(map[string]bool)
	for _, p := range everyMatch(English, players, false) {
		english[p.Text], english[p.Evidence], english[p.Ends] = true, true, true
	}
	for _, p := range everyMatch(German, players, false) {
		if english[p.Text] || english[p.Ends] || strings.Contains(p.Text, "match") || strings.Contains(p.Evidence, "game") {
			t.Errorf("%q (%s), %s", p.Text, p.Evidence, p.Ends)
		}
	}
}

// TestMatchWords reads the sentences.
func TestMatchWords(t *testing.T) {
	stake := func(c StakeCase, side match.Side, then Then, next match.Kind) Stake {
		return Stake{Case: c, Side: side, Then: then, Next: next, Now: MatchScore{Names: players, Score: match.Tally{6, 4}, Left: 1}}
	}
	stands := func(first, second match.Points, left int) MatchScore {
		return MatchScore{Names: players, Score: match.Tally{first, second}, Left: left}
	}
	over := func(m MatchScore, winner match.Side) MatchScore {
		m.Over, m.Winner = true, winner
		return m
	}
	more := stands(4, 4, 0)
	more.More, more.Next = true, match.Armageddon
	for _, test := range []struct{ got, want Prompt }{
		{MatchStake(English, stake(DrawEnough, match.First, ThenOn, 0)), Prompt{Text: "A draw is enough for Halloran to win the match; Pettibone must win."}},
		{MatchStake(English, stake(DrawEnough, match.Second, ThenOther, 0)), Prompt{Text: "A draw is enough for Pettibone; a win takes the match for Halloran."}},
		{MatchStake(German, stake(DrawEnough, match.First, ThenOn, 0)), Prompt{Text: "Für Halloran reicht ein Remis zum Gewinn des Wettkampfs; Pettibone muss gewinnen."}},
		{MatchStake(German, stake(WinTakes, match.First, ThenOn, 0)), Prompt{Text: "Mit einem Sieg hier gewinnt Halloran den Wettkampf; Pettibone darf nicht verlieren."}},
		{MatchStake(German, stake(WinnerTakes, match.Neither, ThenTieBreak, match.Blitz)), Prompt{Text: "Wer diese Partie gewinnt, gewinnt den Wettkampf; bei Remis folgt ein Stichkampf im Blitzschach."}},
		{MatchStands(English, stands(5, 3, 2)), Prompt{Text: "Halloran leads by one point with two games to play."}},
		{MatchStands(English, stands(43, 39, 20)), Prompt{Text: "Halloran leads by two points with twenty games to play."}},
		{MatchStands(German, stands(3, 5, 1)), Prompt{Text: "Pettibone führt zweieinhalb zu eineinhalb, eine Partie steht noch aus."}},
		{MatchStands(English, over(stands(9, 7, 4), match.First)), Prompt{Text: "Halloran has won the match with four games to spare."}},
		{MatchStands(English, over(stands(5, 3, 0), match.First)), Prompt{Text: "Halloran has won the match, two and a half to one and a half."}},
		{MatchStands(English, over(stands(12, 12, 0), match.Second)), Prompt{Text: "The match ends level at six all, which is enough for Pettibone."}},
		{MatchStands(English, over(stands(3, 3, 0), match.Neither)), Prompt{Text: "The match is drawn, one and a half each."}},
		{MatchStands(German, over(stands(9, 7, 1), match.First)), Prompt{Text: "Halloran hat den Wettkampf eine Partie vor Schluss gewonnen."}},
		{MatchStands(English, more), Prompt{Text: "The match is level at two all; an armageddon game follows."}},
		{MatchStands(German, more), Prompt{Text: "Es steht zwei zu zwei, nun folgt eine Armageddon-Partie."}},
	} {
		if test.got.Text != test.want.Text {
			t.Errorf("got %q, want %q", test.got.Text, test.want.Text)
		}
	}
	rated := stands(6, 4, 2)
	rated.Rated, rated.Expected = true, [2]match.Score{127, 73}
	if got, want := MatchStands(English, rated).Evidence, "Halloran 3–2 Pettibone, 2 games to play; the ratings expect 1.27 of 2 for Halloran, 0.73 for Pettibone"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := MatchStands(German, rated).Evidence, "Halloran 3–2 Pettibone, noch 2 Partien; nach Wertungszahl 1,27 von 2 für Halloran, 0,73 für Pettibone"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
