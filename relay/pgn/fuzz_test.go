package pgn

import (
	"bytes"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// exported returns the game as it should come back after Write: what Write's
// documentation names is changed, nothing else.
func exported(g Game) Game {
	out := Game{Tags: exportTags(&g), Result: resultWord(&g)}
	out.Comments = exportedComments(g.Comments)
	out.Moves = exportedMoves(g.Moves)
	return out
}

func exportedMoves(moves []Move) []Move {
	var out []Move
	for _, m := range moves {
		m.Line = 0
		m.Comments = exportedComments(m.Comments)
		m.NAGs = slices.Clone(m.NAGs)
		var variations []Variation
		for _, v := range m.Variations {
			variations = append(variations, Variation{exportedComments(v.Comments), exportedMoves(v.Moves)})
		}
		m.Variations = variations
		out = append(out, m)
	}
	return out
}

func exportedComments(comments []Comment) []Comment {
	brace := strings.NewReplacer("}", ")")
	var out []Comment
	for _, c := range comments {
		n := Comment{Text: brace.Replace(c.Text)}
		for _, cmd := range c.Commands {
			var operands []string
			for _, op := range cmd.Operands {
				operands = append(operands, brace.Replace(op))
			}
			n.Commands = append(n.Commands, Command{cmd.Name, operands})
		}
		out = append(out, n)
	}
	return out
}

// checkRoundTrip writes a game, reads it back and compares.
func checkRoundTrip(t *testing.T, g Game) {
	t.Helper()
	if n := len(g.Moves); n > 0 && !isMove(g.Moves[n-1].SAN) {
		if faultCount(g, FaultOpenEnd) == 0 {
			t.Fatalf("%q is no move and no fault says so: %v", g.Moves[n-1].SAN, g.Faults)
		}
		g.Moves = g.Moves[:n-1]
	}
	var b bytes.Buffer
	if err := Write(&b, &g); err != nil {
		t.Fatalf("Write: %v\n%s", err, dump([]Game{g}))
	}
	again := DefaultLimits
	again.CommentBytes *= 3 // quotes, spaces and roster tags that Write adds must not meet a limit
	again.Tags += len(sevenTags)
	back := again.Read(b.Bytes())
	if len(back) != 1 || len(back[0].Faults) > 0 {
		t.Fatalf("%d games, want 1 without faults: %s\nwritten\n%s", len(back), dump(back), &b)
	}
	if got, want := exported(back[0]), exported(g); !reflect.DeepEqual(got, want) {
		t.Fatalf("got  %s\nwant %s\nwritten\n%s", dump([]Game{got}), dump([]Game{want}), &b)
	}
	var twice bytes.Buffer
	if err := Write(&twice, &back[0]); err != nil || twice.String() != b.String() {
		t.Fatalf("written again: %v\n%s\nwant\n%s", err, &twice, &b)
	}
}

// checkGames holds for whatever Read returns.
func checkGames(t *testing.T, data []byte, games []Game) {
	t.Helper()
	from := 0
	for i, g := range games {
		at := bytes.Index(data[from:], g.Text)
		if at < 0 || i > 0 && at > 0 && len(games) < DefaultLimits.Games && len(bytes.TrimSpace(g.Text)) == 0 {
			t.Errorf("game %d: text %q is not in the rest of the packet", i, g.Text)
		}
		from += max(at, 0) + len(g.Text)
		line := 0
		for _, m := range g.Moves {
			if m.Line < line || m.Line < g.Line {
				t.Errorf("game %d of line %d: move %q in line %d behind line %d", i, g.Line, m.SAN, m.Line, line)
			}
			line = m.Line
		}
		if s := dump(games[i : i+1]); !utf8.ValidString(s) {
			t.Errorf("game %d is not valid UTF-8: %q", i, s)
		}
	}
}

// FuzzRead reads anything: no panic, sound games, and each game written and read
// again is the same.
func FuzzRead(f *testing.F) {
	for _, text := range []string{
		"[Event \"a\"]\n[White \"b \\\"c\\\"\"]\n\n1. e4! {[%clk 0:01:00] x} e5 (1... c5 {[%a \"b, c\",d]} 2. Nf3) 2. f4 $14 1-0\n\n[Event \"d\"]\n\n*",
		"\xEF\xBB\xBF1. \u2658f3 Nf6+- 0-0 e8(Q) e8=Q# exd6 e.p. -- Z0 (=) \u00BD-\u00BD ; x } [%y",
		"[Event \"\xE4\n[Site \"a \"b\" c\"]\n{a\n[Event \"b\"] 1. d4 {[%a [%b 1] [% \"} (1. c4 (c5 1-0\n% x\n1. e",
		"1. e4 {[[%a]%b 1] [ % c]} *\n{[Event \"x\"]} 2. Nf",
		strings.Repeat("}", 101) + "B",
		"1. e4 {[%0 [\"00]00000} *",
		"[FEN \"4k3/8/8/8/8/8/4P3/4K3 b - - 5 39\"] Kd7 {\u00DC}",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		games := Read(slices.Clone(data))
		checkGames(t, data, games)
		for _, g := range games {
			checkRoundTrip(t, g)
		}
	})
}

// TestLibraryRoundTrip writes and reads again every annotated library game.
func TestLibraryRoundTrip(t *testing.T) {
	games := Read(libraryFile(t, "big.pgn"))
	for _, g := range games {
		checkRoundTrip(t, g)
	}
	if got, want := len(games), 1000; got != want {
		t.Errorf("%d games, want %d", got, want)
	}
}
