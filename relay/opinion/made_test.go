package opinion

import (
	"fmt"
	"strings"
	"testing"
	"unicode"

	"clocktell/relay/bitboard"
)

// place reads a position.
func place(t *testing.T, fen string) *bitboard.Position {
	t.Helper()
	p, err := bitboard.ParseFEN(fen)
	if err != nil {
		t.Fatalf("%s: %v", fen, err)
	}
	return &p
}

// moved returns the move a text in SAN means, and the position behind it.
func moved(t *testing.T, p *bitboard.Position, san string) (bitboard.Move, *bitboard.Position) {
	t.Helper()
	m, err := p.ParseSAN(san)
	if err != nil {
		t.Fatalf("%s in %s: %v", san, p.FEN(), err)
	}
	next := *p
	next.Make(m)
	return m, &next
}

// score reads "30", "#3", "#-2", with ">" before it for at least and "<" for at most.
func score(t *testing.T, text string) (s Score) {
	t.Helper()
	switch text[0] {
	case '>':
		s.Bound, text = AtLeast, text[1:]
	case '<':
		s.Bound, text = AtMost, text[1:]
	}
	into := &s.Centipawns
	if rest, mate := strings.CutPrefix(text, "#"); mate {
		into, text = &s.Mate, rest
	}
	if _, err := fmt.Sscan(text, into); err != nil {
		t.Fatalf("score %q: %v", text, err)
	}
	return s
}

// made builds an opinion of some depth on a position from lines such as "30 e4 e5", the first
// of them first at every depth.
func made(t *testing.T, p *bitboard.Position, depth int, lines ...string) *Opinion {
	t.Helper()
	o := &Opinion{Engine: "made up", Depth: depth, Final: true}
	for _, text := range lines {
		words := strings.Fields(text)
		line := Line{Score: score(t, words[0]), Depth: depth}
		at := p
		for _, san := range words[1:] {
			var m bitboard.Move
			m, at = moved(t, at, san)
			line.Moves = append(line.Moves, m)
		}
		o.Lines = append(o.Lines, line)
	}
	for d := 1; d <= depth; d++ {
		o.Steps = append(o.Steps, Step{Depth: d, First: o.Lines[0].First(), Score: o.Lines[0].Score})
	}
	return o
}

// mirrored turns a position over: White's men become Black's, on the ranks opposite.
func mirrored(t *testing.T, p *bitboard.Position) *bitboard.Position {
	t.Helper()
	fields := strings.Fields(p.FEN())
	swap := func(text string) string {
		return strings.Map(func(r rune) rune {
			if unicode.IsUpper(r) {
				return unicode.ToLower(r)
			}
			return unicode.ToUpper(r)
		}, text)
	}
	ranks := strings.Split(swap(fields[0]), "/")
	for i, j := 0, len(ranks)-1; i < j; i, j = i+1, j-1 {
		ranks[i], ranks[j] = ranks[j], ranks[i]
	}
	fields[0] = strings.Join(ranks, "/")
	fields[1] = map[string]string{"w": "b", "b": "w"}[fields[1]]
	fields[2] = swap(fields[2])
	fields[3] = strings.NewReplacer("3", "6", "6", "3").Replace(fields[3])
	return place(t, strings.Join(fields, " "))
}

func mirroredMove(m bitboard.Move) bitboard.Move {
	return bitboard.NewMove(m.From()^56, m.To()^56, m.Promotion())
}

func mirroredMoves(moves []bitboard.Move) []bitboard.Move {
	var out []bitboard.Move
	for _, m := range moves {
		out = append(out, mirroredMove(m))
	}
	return out
}

// mirroredOpinion says the same of the position turned over.
func mirroredOpinion(o *Opinion) *Opinion {
	next := *o
	next.Lines, next.Steps = nil, nil
	for _, l := range o.Lines {
		l.Score, l.Moves = l.Score.From(false), mirroredMoves(l.Moves)
		next.Lines = append(next.Lines, l)
	}
	for _, s := range o.Steps {
		s.Score, s.First = s.Score.From(false), mirroredMove(s.First)
		next.Steps = append(next.Steps, s)
	}
	return &next
}
