package build

import (
	"fmt"
	"strings"
	"testing"

	"clocktell/relay/bitboard"
	"clocktell/relay/reference"
)

// brokenGames has games of which few can be used, each with what is to become of it.
var brokenGames = []struct {
	text   string
	reason Reason // "": kept
	line   int    // of the game, from its first on, that is told
	detail string
}{
	{"[Event \"Club\"]\n[White \"Aune\"]\n[Black \"Berg\"]\n[Date \"2031.01.02\"]\n\n1. e4 e5 2. Nf3 1-0\n", "", 0, ""},
	{"[Event \"Club\"]\n[White \"Aune\"]\n[Black \"Berg\"]\n[Date \"2031.05.06\"]\n\n1. e4 {so} e5 (1... c5) 2. Nf3! $14 1-0\n", ReasonDouble, 1, ""},
	{"[Event \"Club\"]\n[White \"Aune\"]\n[Black \"Berg\"]\n[Date \"2032.05.06\"]\n\n1. e4 e5 2. Nf3 1-0\n", "", 0, ""},
	{"[Event \"Club\"]\n[White \"Aune\"]\n[Black \"Berg\"]\n[Date \"2031.05.06\"]\n\n1. e4 e5 2. Nf3 Nc6 1-0\n", "", 0, ""},
	{"[Event \"Club\"]\n[White \"Cern\"]\n\n1. e4 e5\n2. Ke3 1-0\n", ReasonMove, 5, "move 2. "},
	{"[Event \"Club\"]\n[White \"Cern\"]\n\n1. e4 e5 2. Nf3\nNd7 0-1\n", ReasonMove, 5, "move 2… "},
	{"[Event \"Club\"]\n[White \"Cern\"]\n\n1. e4 e9 0-1\n", ReasonMove, 4, "move 1… "},
	{"[Event \"Club\"]\n[White \"Cern\"]\n\n*\n", ReasonNoMoves, 1, ""},
	{"[Event \"Club\"]\n[White \"Cern\"]\n[Variant \"Losers\"]\n\n1. e4 *\n", ReasonVariant, 1, "Losers"},
	{"[Event \"Club\"]\n[White \"Cern\"]\n[Variant \"Standard\"]\n\n1. c4 *\n", "", 0, ""},
	{"[Event \"Club\"]\n[White \"Dahl\"]\n[SetUp \"1\"]\n[FEN \"8/8/8/8/8/8/8/8 w - - 0 1\"]\n\n1. c4 *\n", ReasonPosition, 1, ""},
	{"[Event \"Club\"]\n[White \"Dahl\"]\n[SetUp \"1\"]\n[FEN \"4k3/8/8/8/8/8/4P3/4K3 b - - 0 1\"]\n\n1... Kd7 2. e5 *\n", ReasonMove, 6, "move 2. "},
	{"[Event \"Club\"]\n[White \"Dahl\"]\n[SetUp \"1\"]\n[FEN \"4k3/8/8/8/8/8/4P3/4K3 b - - 0 1\"]\n\n1... Kd7 2. e4 *\n", "", 0, ""},
	{"[Event \"Club\"]\n[White \"Egge\"]\n\n1. e4 (1. d4 *\n", ReasonText, 4, "variation"},
	{"[Event \"Club\"]\n[White \"Egge\"]\n\n1. e4 {never\nclosed 1-0\n", ReasonText, 4, "comment"},
	{"[Event \"?\"]\n[White \"?\"]\n[Black \"?\"]\n\n1. h4 1-0\n", "", 0, ""},
	{"[Event \"?\"]\n[White \"?\"]\n[Black \"?\"]\n\n1. h4 1-0\n", "", 0, ""}, // nobody knows whose double
	{"[Event \"Club\"]\n[White \"Foss\"]\n\n1. e4 e5 2. Nf3 Nd", ReasonText, 4, "file ends"},
}

// TestBroken builds from games of which few can be used: each is kept or told of, and
// none stops the build. Small blocks and runs lead them through every way.
func TestBroken(t *testing.T) {
	var text strings.Builder
	var want []string
	line := 1
	for i, g := range brokenGames {
		if g.reason != "" {
			want = append(want, fmt.Sprintf("%s: game %d, line %d", g.reason, i+1, line+g.line-1))
		}
		text.WriteString(g.text + "\n")
		line += strings.Count(g.text, "\n") + 1
	}
	path := mustWrite(t, "broken.pgn", strings.TrimRight(text.String(), "\n"))
	for _, s := range []sizes{defaultSizes, {block: 100, game: 1 << 10, run: 30, fanIn: 2, doubles: 2}} {
		o := options(t, path)
		o.sizes = s
		report := mustBuild(t, o)
		checkBroken(t, report, want)
		if index := mustOpen(t, o.Out); index.Games() != report.Kept || report.Games != len(brokenGames) {
			t.Errorf("%d games in the file, %d kept, %d read of %d", index.Games(), report.Kept, report.Games, len(brokenGames))
		}
	}
}

func checkBroken(t *testing.T, report Report, want []string) {
	t.Helper()
	told := make(map[string]Example)
	for _, skip := range report.Skipped {
		n := 0
		for _, w := range want {
			if strings.HasPrefix(w, string(skip.Reason)+":") {
				n++
			}
		}
		if n != skip.Games {
			t.Errorf("%s: %d games, want %d", skip.Reason, skip.Games, n)
		}
		for _, e := range skip.Examples {
			told[fmt.Sprintf("%s: game %d, line %d", skip.Reason, e.Game, e.Line)] = e
		}
	}
	seen := make(map[Reason]int)
	for _, w := range want {
		reason, _, _ := strings.Cut(w, ":")
		if seen[Reason(reason)]++; seen[Reason(reason)] > ExamplesMost || !Reason(reason).named() {
			continue
		}
		e, ok := told[w]
		if !ok {
			t.Errorf("not told: %s; told are %v", w, told)
			continue
		}
		if g := brokenGames[e.Game-1]; !strings.Contains(e.Detail, g.detail) {
			t.Errorf("%s: told is %q, want something of %q", w, e.Detail, g.detail)
		}
	}
}

// A position that a game reaches again counts once, with what was played the first time:
// after four plies, after six, and not where the right to castle is gone.
func TestReachedTwice(t *testing.T) {
	tests := []struct {
		moves, fen, want string
	}{
		{"1. Nf3 Nf6 2. Ng1 Ng8 3. e4 e5", bitboard.StartFEN, "g1f3"},
		{"1. e4 e5 2. Qf3 Qf6 3. Qe2 Qe7 4. Qd1 Qd8 5. d4", "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2", "d1f3"},
		{"1. e4 e5 2. Ke2 Ke7 3. Ke1 Ke8 4. d4", "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w - - 0 4", "d2d4"},
	}
	for _, tt := range tests {
		o := options(t, mustWrite(t, "games.pgn", "[Event \"Club\"]\n[White \"Aune\"]\n\n"+tt.moves+" *\n"))
		mustBuild(t, o)
		at, err := bitboard.ParseFEN(tt.fen)
		must(t, err)
		var answer reference.Answer
		must(t, mustOpen(t, o.Out).Lookup(at.Hash(), reference.Filter{}, &answer))
		if answer.Games != 1 || len(answer.Moves) != 1 || bitboard.Move(answer.Moves[0].Move).String() != tt.want {
			t.Errorf("%s: %d games, moves %+v, want %s", tt.moves, answer.Games, answer.Moves, tt.want)
		}
	}
}

// Games that are the same up to the depth are doubles only if they are equally long.
func TestDoublesBehindTheDepth(t *testing.T) {
	head := "[Event \"Club\"]\n[White \"Aune\"]\n[Black \"Berg\"]\n\n"
	o := options(t, mustWrite(t, "games.pgn", head+"1. e4 e5 2. Nf3 *\n\n"+head+"1. e4 e5 2. Nf3 Nc6 *\n\n"+head+"1. e4 e5 2. Bc4 *\n"))
	for depth, want := range map[int]int{2: 2, 3: 3} {
		o.Depth = depth
		if report := mustBuild(t, o); report.Kept != want {
			t.Errorf("depth %d: %d games, want %d", depth, report.Kept, want)
		}
	}
}

// Behind the depth nothing is looked at: neither a position nor a move that cannot be played.
func TestDepth(t *testing.T) {
	o := options(t, mustWrite(t, "games.pgn", "[Event \"Club\"]\n[White \"Aune\"]\n\n1. e4 e5 2. Nf3 Nc6 3. Kb8 *\n"))
	for depth, want := range map[int]int{1: 2, 3: 4, 4: 5} {
		o.Depth = depth
		if report := mustBuild(t, o); report.Positions != want || report.Kept != 1 {
			t.Errorf("depth %d: %d positions of %d games, want %d of 1", depth, report.Positions, report.Kept, want)
		}
	}
	o.Depth = 5
	if _, err := Run(t.Context(), o); err == nil || !strings.Contains(err.Error(), "no game is left") {
		t.Errorf("depth 5: error %v", err)
	}
}

// Every reason is told, and only a few games of each are named.
func TestReasonsAreTold(t *testing.T) {
	var r Report
	for _, reason := range reasons {
		for range ExamplesMost + 2 {
			r.skip(reason, func() Example { return Example{Who: "Aune – Berg"} })
		}
	}
	told := r.BySeverity()
	if len(told) != len(reasons) || len(reasons) != 11 {
		t.Errorf("%d reasons of %d are told, want 11", len(told), len(reasons))
	}
	for _, skip := range told {
		want := 0
		if skip.Reason.named() {
			want = ExamplesMost
		}
		if skip.Games != ExamplesMost+2 || len(skip.Examples) != want {
			t.Errorf("%s: %d games, %d named, want %d", skip.Reason, skip.Games, len(skip.Examples), want)
		}
	}
}
