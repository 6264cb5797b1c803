package main

import (
	"bytes"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"text/tabwriter"

	"clocktell/relay/prompt"
)

// Bounds of what is told of sentences.
const (
	sentenceWords = 15 // more are too many to say
	examplesMost  = 10 // sentences named of each sort
)

// promptSummary gathers what there is to say of all games together.
type promptSummary struct {
	games, leftOut, plies, prompts int
	byKind                         map[prompt.Kind]map[prompt.Priority]int
	fullMoves                      []int     // new prompts in each
	rates                          []float64 // new prompts a full move, of each game with moves
	busiest                        int       // number of the game with the highest rate
	most                           float64   // which is this
	long, again                    []string
}

// add counts a game.
func (s *promptSummary) add(number int, g *playedGame) {
	s.games++
	s.plies += g.Plies
	s.prompts += len(g.Said)
	in, texts := make(map[int]int), make(map[string]int)
	for _, p := range g.Said {
		s.count(p.Kind, p.Priority)
		in[p.Full]++
		if texts[p.Text]++; texts[p.Text] == 2 {
			s.again = append(s.again, fmt.Sprintf("game %d: %s", number, p.Text))
		}
		if n := len(strings.Fields(p.Text)); n > sentenceWords {
			s.long = append(s.long, fmt.Sprintf("game %d, %d words: %s", number, n, p.Text))
		}
	}
	if g.FullMoves == 0 {
		return
	}
	s.fullMoves = append(s.fullMoves, slices.Collect(maps.Values(in))...)
	s.fullMoves = append(s.fullMoves, make([]int, g.FullMoves-len(in))...)
	rate := float64(len(g.Said)) / float64(g.FullMoves)
	s.rates = append(s.rates, rate)
	if rate > s.most || s.busiest == 0 {
		s.busiest, s.most = number, rate
	}
}

func (s *promptSummary) count(kind prompt.Kind, priority prompt.Priority) {
	if s.byKind == nil {
		s.byKind = make(map[prompt.Kind]map[prompt.Priority]int)
	}
	if s.byKind[kind] == nil {
		s.byKind[kind] = make(map[prompt.Priority]int)
	}
	s.byKind[kind][priority]++
}

// write writes the summary, each line of it behind a #.
func (s *promptSummary) write(w io.Writer) {
	var text bytes.Buffer
	fmt.Fprintf(&text, "%s, %s, %s, %s", counted(s.games, "game"), counted(s.plies, "half-move"), counted(len(s.fullMoves), "full move"), counted(s.prompts, "prompt"))
	if s.leftOut > 0 {
		fmt.Fprintf(&text, "; left out %s", counted(s.leftOut, "game"))
	}
	fmt.Fprintln(&text)
	s.writeKinds(&text)
	s.writeMoves(&text)
	writeSentences(&text, fmt.Sprintf("sentences of more than %d words", sentenceWords), s.long)
	writeSentences(&text, "sentences that come again in their game", s.again)
	fmt.Fprintln(w)
	for line := range strings.Lines(text.String()) {
		fmt.Fprint(w, "# ", line)
	}
}

// urgency orders priorities; one it does not know comes last.
var urgency = []prompt.Priority{prompt.Now, prompt.Soon, prompt.Background}

// writeKinds writes a table of kinds and priorities, whichever came.
func (s *promptSummary) writeKinds(w io.Writer) {
	if s.prompts == 0 {
		return
	}
	priorities := slices.Clone(urgency)
	for _, of := range s.byKind {
		for _, p := range slices.Sorted(maps.Keys(of)) {
			if !slices.Contains(priorities, p) {
				priorities = append(priorities, p)
			}
		}
	}
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprint(table, "kind")
	for _, p := range priorities {
		fmt.Fprintf(table, "\t%s", p)
	}
	fmt.Fprintln(table)
	for _, kind := range slices.Sorted(maps.Keys(s.byKind)) {
		fmt.Fprint(table, kind)
		for _, p := range priorities {
			fmt.Fprintf(table, "\t%d", s.byKind[kind][p])
		}
		fmt.Fprintln(table)
	}
	table.Flush()
}

// writeMoves writes how many full moves brought how many new prompts.
func (s *promptSummary) writeMoves(w io.Writer) {
	if len(s.fullMoves) == 0 {
		return
	}
	counts := slices.Sorted(slices.Values(s.fullMoves))
	most := counts[len(counts)-1]
	times := make([]int, most+1)
	for _, n := range counts {
		times[n]++
	}
	var bars []string
	for n, moves := range times {
		bars = append(bars, fmt.Sprintf("%d in %s", n, thousands(moves)))
	}
	fmt.Fprintf(w, "new prompts of a full move: %s; median %.3g, at most %d\n", strings.Join(bars, ", "), middle(counts), most)
	if s.prompts == 0 {
		return
	}
	slices.Sort(s.rates)
	fmt.Fprintf(w, "new prompts a full move, game by game: median %.2f, at most %.2f (game %d)\n", middle(s.rates), s.most, s.busiest)
}

// middle returns the median of sorted figures, of which there is one at least.
func middle[T int | float64](sorted []T) float64 {
	n := len(sorted)
	return float64(sorted[(n-1)/2]+sorted[n/2]) / 2
}

// writeSentences tells how many sentences there are of a sort, and the first of them.
func writeSentences(w io.Writer, sort string, sentences []string) {
	fmt.Fprintf(w, "%s: %s\n", sort, thousands(len(sentences)))
	for _, text := range sentences[:min(len(sentences), examplesMost)] {
		fmt.Fprintf(w, "  %s\n", oneLine(text))
	}
	if more := len(sentences) - examplesMost; more > 0 {
		fmt.Fprintf(w, "  and %s more\n", thousands(more))
	}
}
