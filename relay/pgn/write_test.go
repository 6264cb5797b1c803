package pgn

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"
)

func written(t *testing.T, g *Game) string {
	t.Helper()
	var b strings.Builder
	if err := Write(&b, g); err != nil {
		t.Fatalf("Write: %v", err)
	}
	return b.String()
}

const rosterDefaults = `[Event "?"]
[Site "?"]
[Date "????.??.??"]
[Round "?"]
[White "?"]
[Black "?"]
[Result "*"]

`

// Export format: PGN 3.2 and 8. Defaults of the roster: 8.1.1. "N..." behind
// White's move only where comments or variations come between: 8.2.2.2. Qxa8? is
// written Qxa8 $2: 8.2.3.8.
func TestWriteMovetext(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"plain", "e4 e5 Nf3 *", "1. e4 e5 2. Nf3 *"},
		{"suffix", "Qxa8? Kd7!! *", "1. Qxa8 $2 Kd7 $3 *"},
		{"comment", "{a} e4 {b} e5 {c} Nf3 *", "{a} 1. e4 {b} 1... e5 {c} 2. Nf3 *"},
		{"variation", "e4 (d4 d5 (Nf6) c4) e5 (c5 {x} Nf3) Nf3 *",
			"1. e4 (1. d4 d5 (1... Nf6) 2. c4) 1... e5 (1... c5 {x} 2. Nf3) 2. Nf3 *"},
		{"command", `e4 {a [%clk 0:01:00] b [%x "a, b", c d,"",]} *`, `1. e4 {[%clk 0:01:00] [%x "a, b",c d,"",""] a b} *`},
		{"brace", "e4 ; a } b\n*", "1. e4 {a ) b} *"},
		{"comment in a variation", "e4 ({x} d4) *", "1. e4 ({x} 1. d4) *"},
		{"no result", "e4 ", "1. e4 *"},
		{"no moves", "[A \"b\"]", "*"},
	} {
		g := Read([]byte(c.text))[0]
		g.Tags = nil
		if got, want := written(t, &g), rosterDefaults+c.want+"\n\n"; got != want {
			t.Errorf("%s: got\n%swant\n%s", c.name, got, want)
		}
	}
}

func TestWriteTags(t *testing.T) {
	g := Read([]byte(`[b "1"][Result "1-0"][White "a \"b\" \\"][B "2"][Event "e"][b "3"][A "4"] 1-0`))[0]
	want := `[Event "e"]
[Site "?"]
[Date "????.??.??"]
[Round "?"]
[White "a \"b\" \\"]
[Black "?"]
[Result "1-0"]
[A "4"]
[B "2"]
[b "1"]

1-0

`
	if got := written(t, &g); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// The first move's number and side come from the position a game is set up with.
func TestWriteFromPosition(t *testing.T) {
	g := Read([]byte(`[FEN "4k3/8/8/8/8/8/4P3/4K3 b - - 5 39"] Kd7 e4 *`))[0]
	if got, want := written(t, &g), "\n39... Kd7 40. e4 *\n\n"; !strings.HasSuffix(got, want) {
		t.Errorf("got\n%swant at the end\n%s", got, want)
	}
}

// Lines stay below 80 characters and take as many words as go in (PGN 8.2.1).
func TestWriteLines(t *testing.T) {
	g := Read([]byte(strings.Repeat("Nf3 {über die Mitte} Nc6 (Nf6 $1 {x}) ", 60) + "*"))[0]
	out := written(t, &g)
	lines := strings.Split(strings.TrimSpace(out[strings.Index(out, "\n\n")+2:]), "\n")
	for i, line := range lines {
		n := utf8.RuneCountInString(line)
		if n >= 80 || strings.TrimSpace(line) != line {
			t.Errorf("line %q of %d characters", line, n)
		}
		if i+1 < len(lines) {
			first, _, _ := strings.Cut(lines[i+1], " ")
			if n+1+utf8.RuneCountInString(first) < 80 {
				t.Errorf("line %q has room for %q", line, first)
			}
		}
	}
	if len(lines) < 20 {
		t.Errorf("%d lines, want 20 or more", len(lines))
	}
}

// No line of a comment may begin like an escape line or a tag pair.
func TestWriteCommentLines(t *testing.T) {
	g := Game{Moves: []Move{{SAN: "e4", Notes: &Notes{Comments: []Comment{{Text: strings.Repeat(`word % [Event "x"] `, 30)}}}}}}
	for _, line := range strings.Split(written(t, &g), "\n")[8:] {
		if strings.HasPrefix(line, "%") || strings.HasPrefix(line, "[") {
			t.Errorf("line %q", line)
		}
	}
}

func TestWriteErrors(t *testing.T) {
	for name, g := range map[string]Game{
		"move":         {Moves: []Move{{SAN: "Nf"}}},
		"glyph":        {Moves: []Move{{SAN: "e4", Notes: &Notes{NAGs: []int{256}}}}},
		"tag name":     {Tags: []Tag{{"a b", ""}}},
		"result":       {Result: "2-0"},
		"command name": {Comments: []Comment{{Commands: []Command{{Name: "a b"}}}}},
	} {
		var b strings.Builder
		err := Write(&b, &g)
		if !errors.Is(err, ErrWrite) || !strings.Contains(err.Error(), name) || b.Len() > 0 {
			t.Errorf("%s: error %v and %d bytes, want ErrWrite and none", name, err, b.Len())
		}
	}
}
