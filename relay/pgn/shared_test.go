package pgn

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

// shapeSamples has a character of each shape, and more of those whose letters mean
// something to the slow way.
const shapeSamples = "Na1x+#O-=."

// TestPlainWords holds the quick way to take moves to the slow one, for every word of
// up to six characters: what it takes is a move, of that length.
func TestPlainWords(t *testing.T) {
	taken := 0
	var try func(word string)
	try = func(word string) {
		w := word + " e4 e5 "
		if n := int(plainStep(plainStep(plainRoot, w[:3]), w[3:6])); n > 0 && n <= plainMost && n == toSpace(w[:plainBytes]) {
			taken++
			if !isMove(word) || n != len(word) {
				t.Errorf("%q is taken for a move of %d characters", word, n)
			}
		}
		if len(word) < 6 {
			for _, c := range shapeSamples {
				try(word + string(c))
			}
		}
	}
	try("")
	if want := len(plainWords) + 6; taken != want { // six end in a sign of check, of which there are two
		t.Errorf("%d words taken, want %d", taken, want)
	}
}

// Nothing but white space ends a plain word, and it is found where it stands.
func TestToSpace(t *testing.T) {
	for c := range 256 {
		for at := range 9 {
			w := []byte("Nf3\xE4\xFF?!+")
			if at < len(w) {
				w[at] = byte(c)
			}
			want := at
			if at == 8 || c > ' ' {
				want = 8
			}
			if got := toSpace(string(w)); got != want {
				t.Errorf("toSpace(%q) = %d, want %d", w, got, want)
			}
		}
	}
}

// TestGamesShareNothing appends to every list of every game, which must not reach
// into the lists of other games that lie beside them in memory.
func TestGamesShareNothing(t *testing.T) {
	data := libraryFile(t, "big.pgn")[:300_000]
	data = append(data, strings.Repeat("\n[A \"b\"] {a} e4! $7 {[%a b,c][%d]} {e} (d4 {x} ({y} c4)) (d4) e5 *", 300)...)
	games, want := Read(data), Read(data)
	for i := range games {
		g := &games[i]
		_ = append(g.Tags, Tag{"no", "no"})
		_ = append(g.Faults, Fault{Reason: "no"})
		scribbleComments(g.Comments)
		scribbleMoves(g.Moves)
	}
	if len(games) < 300 || !reflect.DeepEqual(games, want) {
		t.Errorf("what was appended to the lists of %d games is found in other games", len(games))
	}
}

func scribbleMoves(moves []Move) {
	_ = append(moves, Move{SAN: "no"})
	for _, m := range moves {
		if m.Notes == nil {
			continue
		}
		_ = append(m.Notes.NAGs, 99)
		_ = append(m.Notes.Variations, Variation{})
		scribbleComments(m.Notes.Comments)
		for _, v := range m.Notes.Variations {
			scribbleComments(v.Comments)
			scribbleMoves(v.Moves)
		}
	}
}

func scribbleComments(comments []Comment) {
	_ = append(comments, Comment{Text: "no"})
	for _, c := range comments {
		_ = append(c.Commands, Command{Name: "no"})
		for _, cmd := range c.Commands {
			_ = append(cmd.Operands, "no")
		}
	}
}

// TestLineNumbers counts lines of any length one by one and at a jump.
func TestLineNumbers(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		var b strings.Builder
		for range r.IntN(30) {
			b.WriteString([]string{"\n", "\r", "\r\n", "\n\n", "a", strings.Repeat("b", r.IntN(2*lineWindow))}[r.IntN(6)])
		}
		text := b.String()
		step, jump := newLines(text, 1), newLines(text, 1)
		want, far := 1, r.IntN(len(text)+1)
		for at := range len(text) + 1 {
			if at > 0 && (text[at-1] == '\n' || text[at-1] == '\r' && !strings.HasPrefix(text[at:], "\n")) {
				want++
			}
			if got := step.lineOf(at); got != want {
				t.Fatalf("offset %d of %q is in line %d, want %d", at, text, got, want)
			}
			if at >= far {
				if got := jump.lineOf(at); got != want {
					t.Fatalf("offset %d of %q, from 0, is in line %d, want %d", at, text, got, want)
				}
			}
		}
	}
}

// A comment may end, and a tag pair end it, at any distance.
func TestLongComments(t *testing.T) {
	for n := range 4 * braceWindow {
		text := strings.Repeat("x", n)
		for _, c := range []struct{ text, want string }{
			{"e4 {" + text + "z} e5 *", "e4 {" + text + "z} e5 =*"},
			{"e4 {" + text + "\n[A \"b\"]} *", "e4 {" + text + "} !unclosed_comment@1 !no_result@2 | A:b =* !bad_token@2"},
			{"e4 {" + text + "[A \"b\"]z} *", "e4 {" + text + "[A \"b\"]z} =*"},
			{"e4 {" + text + "z", "e4 {" + text + "z} !unclosed_comment@1"},
		} {
			if got := dump(Read([]byte(c.text))); got != strings.Replace(c.want, " {}", "", 1) {
				t.Errorf("after %d characters: Read(%q) is\n     %s\nwant %s", n, c.text, got, c.want)
			}
		}
	}
}
