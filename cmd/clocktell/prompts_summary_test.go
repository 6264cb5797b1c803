package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/prompt"
	"clocktell/relay/relaytest"
)

// said is a prompt of a full move, of any kind.
func said(full int, kind, priority, text string) listedPrompt {
	p := prompt.Prompt{Kind: prompt.Kind(kind), Priority: prompt.Priority(priority), Text: text}
	return listedPrompt{Full: full, BoardPrompt: relay.BoardPrompt{Prompt: p}}
}

// TestPromptSummary counts by hand: seven full moves with 0, 0, 0, 0, 1, 1 and 3 new
// prompts, of which two games have 4/5 and 1/2 a move. Kinds and priorities that nobody
// knows yet are counted like any other.
func TestPromptSummary(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("word ", sentenceWords+1))
	s := new(promptSummary)
	s.add(3, &playedGame{Plies: 9, FullMoves: 5, Said: []listedPrompt{
		said(2, "clock", "now", "A."), said(4, "clock", "soon", "A."), said(4, "weather", "soon", "B."), said(4, "weather", "someday", "A."),
	}})
	s.add(8, &playedGame{Plies: 4, FullMoves: 2, Said: []listedPrompt{said(30, "clock", "now", long)}})
	s.add(9, &playedGame{})
	s.leftOut = 1
	var out strings.Builder
	s.write(&out)
	want := `
# 3 games, 13 half-moves, 7 full moves, 5 prompts; left out 1 game
# kind     now  soon  background  someday
# clock    2    1     0           0
# weather  0    1     0           1
# new prompts of a full move: 0 in 4, 1 in 2, 2 in 0, 3 in 1; median 0, at most 3
# new prompts a full move, game by game: median 0.65, at most 0.80 (game 3)
# sentences of more than 15 words: 1
#   game 8, 16 words: ` + long + `
# sentences that come again in their game: 1
#   game 3: A.
`
	if out.String() != want {
		t.Errorf("got\n%swant\n%s", &out, want)
	}
}

// TestPromptSummaryExamples: of many sentences the first are named and the others counted.
func TestPromptSummaryExamples(t *testing.T) {
	s := new(promptSummary)
	g := &playedGame{FullMoves: 1}
	for i := range examplesMost + 2 {
		text := fmt.Sprintf("Sentence %d.", i)
		g.Said = append(g.Said, said(1, "clock", "now", text), said(1, "clock", "now", text))
	}
	s.add(1, g)
	var out strings.Builder
	s.write(&out)
	if n := strings.Count(out.String(), "#   game 1: "); n != examplesMost || !strings.Contains(out.String(), "#   and 2 more") {
		t.Errorf("%d named\n%s", n, &out)
	}
}

// TestPromptStandsAgain: a prompt that was withdrawn and stands again is one prompt, and
// is not told as withdrawn.
func TestPromptStandsAgain(t *testing.T) {
	s := relaytest.NewStage()
	s.Take(relaytest.Game{Moves: "e4 e5"}.PGN())
	p := &playedGame{seen: make(map[promptKey]int)}
	item := relay.BoardPrompt{Prompt: prompt.Prompt{Text: "A leads."}, Alert: relay.Alert{ID: "lead", At: s.Now}, Board: 1}
	for i, test := range []struct {
		withdrawn bool
		until     string
	}{{false, ""}, {true, "1...e5"}, {false, ""}, {true, "1...e5"}} {
		item.Withdrawn = map[bool]time.Time{true: s.Now}[test.withdrawn]
		next := *s.Show
		next.Said = relay.Prompts{Rev: uint64(i + 1), Items: []relay.BoardPrompt{item}}
		p.show = &next
		p.look()
		if len(p.Said) != 1 || p.Said[0].Until != test.until {
			t.Errorf("%d: %+v, want one until %q", i, p.Said, test.until)
		}
	}
}
