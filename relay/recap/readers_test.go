package recap

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"

	corentings "github.com/corentings/chess/v2"
	"github.com/notnil/chess"

	"clocktell/relay/pgn"
)

// told is a move as a reader understands it.
type told struct {
	SAN     string   `json:"san"`
	NAGs    []int    `json:"nags"`
	Comment string   `json:"comment"`
	Clk     string   `json:"clk"`
	Emt     string   `json:"emt"`
	Lines   []toldIn `json:"lines"`
}

type toldIn struct {
	Comment string `json:"comment"`
	Moves   []told `json:"moves"`
}

type toldGame struct {
	White, Black, Event, Result string
	Moves                       []told
}

// asTold is what a reader should understand of moves.
func asTold(moves []pgn.Move) []told {
	out := []told{}
	for _, m := range moves {
		v := told{SAN: strings.TrimRight(m.SAN, "+#"), NAGs: []int{}, Lines: []toldIn{}}
		if m.Notes != nil {
			v.NAGs = append(v.NAGs, m.Notes.NAGs...)
			slices.Sort(v.NAGs)
			v.NAGs = slices.Compact(v.NAGs)
			v.Comment = texts(m.Notes.Comments)
			v.Clk, v.Emt = command(m.Notes.Comments, "clk"), command(m.Notes.Comments, "emt")
			for _, l := range m.Notes.Variations {
				v.Lines = append(v.Lines, toldIn{texts(l.Comments), asTold(l.Moves)})
			}
		}
		out = append(out, v)
	}
	return out
}

func texts(comments []pgn.Comment) string {
	var out []string
	for _, c := range comments {
		out = append(out, c.Text)
	}
	return folded(strings.Join(out, " "))
}

func folded(text string) string { return strings.Join(strings.Fields(text), " ") }

func command(comments []pgn.Comment, name string) string {
	for _, c := range comments {
		for _, cmd := range c.Commands {
			if cmd.Name == name {
				return strings.Join(cmd.Operands, ",")
			}
		}
	}
	return ""
}

// TestReadBack writes games with all that a recap hangs on them, and lets three readers that
// are not ours read them: github.com/notnil/chess v1.10.0 (which reads moves and comments),
// github.com/corentings/chess/v2 v2.3.2 and npm's kokopu 4.13.4.
func TestReadBack(t *testing.T) {
	leaveOut(t)
	r := rand.New(rand.NewPCG(7, 11))
	games := corpus(t, r, 3)
	var all bytes.Buffer
	var want []*pgn.Game
	lines, notes := 0, 0
	for _, g := range games {
		burden(g, r)
		want = append(want, annotated(g, &english))
		lines += len(g.Lines)
		notes += len(g.Said)
	}
	if err := WritePGN(&all, &english, games...); err != nil {
		t.Fatal(err)
	}
	if len(games) < 300 || lines < 200 || notes < 500 {
		t.Errorf("only %d games with %d lines and %d sentences", len(games), lines, notes)
	}
	t.Logf("%d games with %d lines and %d sentences, %d kB", len(games), lines, notes, all.Len()/1000)
	t.Run("notnil", func(t *testing.T) { readNotnil(t, all.String(), want) })
	t.Run("corentings", func(t *testing.T) { readCorentings(t, all.String(), want) })
	t.Run("kokopu", func(t *testing.T) { readKokopu(t, all.String(), want) })
	t.Run("standard", func(t *testing.T) { checkStandard(t, all.String(), len(games)) })
}

func readNotnil(t *testing.T, text string, want []*pgn.Game) {
	scanner, n := chess.NewScanner(strings.NewReader(text)), 0
	for n < len(want) && scanner.Scan() {
		g := scanner.Next()
		var got []string
		for i, m := range g.Moves() {
			got = append(got, strings.TrimRight(chess.AlgebraicNotation{}.Encode(g.Positions()[i], m), "+#"))
		}
		same(t, n, "moves", got, sans(want[n].Moves))
		for i, comments := range g.Comments() {
			if i >= len(want[n].Moves) {
				break
			}
			if text := folded(strings.Join(comments, " ")); !strings.HasSuffix(text, asTold(want[n].Moves[i : i+1])[0].Comment) {
				t.Errorf("game %d, move %d: comment %q, want %q", n, i, text, asTold(want[n].Moves[i : i+1])[0].Comment)
			}
		}
		n++
	}
	if err := scanner.Err(); n != len(want) {
		t.Errorf("%d games read of %d: %v", n, len(want), err)
	}
}

func sans(moves []pgn.Move) []string {
	var out []string
	for _, m := range moves {
		out = append(out, strings.TrimRight(m.SAN, "+#"))
	}
	return out
}

func same[T comparable](t *testing.T, game int, what string, got, want []T) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("game %d: %s %v, want %v", game, what, got, want)
	}
}

func readCorentings(t *testing.T, text string, want []*pgn.Game) {
	scanner, n := corentings.NewScanner(strings.NewReader(text)), 0
	for scanner.HasNext() {
		g, err := scanner.ParseNext()
		if err == io.EOF {
			break
		}
		if err != nil || n >= len(want) {
			t.Fatalf("game %d: %v", n, err)
		}
		got := corentingsLine(g.GetRootMove())
		compare(t, n, got, asCorentings(want[n].Moves))
		n++
	}
	if n != len(want) {
		t.Errorf("%d games read of %d", n, len(want))
	}
}

// asCorentings leaves out what that library does not offer: of glyphs it keeps the last one
// written, and inside of variations it keeps neither comments nor glyphs.
func asCorentings(moves []pgn.Move) []told {
	out := asTold(moves)
	for i := range out {
		if n := moves[i].Notes; n != nil && len(n.NAGs) > 0 {
			out[i].NAGs = n.NAGs[len(n.NAGs)-1:]
		}
		for k := range out[i].Lines {
			for m := range out[i].Lines[k].Moves {
				out[i].Lines[k].Moves[m].Comment = ""
			}
		}
	}
	return out
}

// corentingsLine follows the first child of each move; the others are variations of it.
func corentingsLine(parent *corentings.Move) []told {
	out := []told{}
	for len(parent.Children()) > 0 {
		first := parent.Children()[0]
		v := corentingsMove(parent, first)
		for _, other := range parent.Children()[1:] {
			v.Lines = append(v.Lines, toldIn{Moves: append([]told{corentingsMove(parent, other)}, corentingsLine(other)...)})
		}
		out = append(out, v)
		parent = first
	}
	return out
}

func corentingsMove(parent, m *corentings.Move) told {
	v := told{Comment: folded(m.Comments()), NAGs: []int{}, Lines: []toldIn{}}
	v.SAN = strings.TrimRight(corentings.AlgebraicNotation{}.Encode(parent.Position(), m), "+#")
	v.Clk, _ = m.GetCommand("clk")
	v.Emt, _ = m.GetCommand("emt")
	if n, err := strconv.Atoi(strings.TrimPrefix(m.NAG(), "$")); err == nil {
		v.NAGs = append(v.NAGs, n)
	}
	return v
}

func readKokopu(t *testing.T, text string, want []*pgn.Game) {
	node, err := exec.LookPath("node")
	if err == nil {
		_, err = os.Stat("testdata/readers/node_modules/kokopu")
	}
	if err != nil {
		const need = "kokopu is missing; run npm ci --prefix relay/recap/testdata/readers"
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatalf("%s: %v", need, err)
		}
		t.Skip(need)
	}
	command := exec.Command(node, "read.mjs")
	command.Dir, command.Stdin = "testdata/readers", strings.NewReader(text)
	var stderr bytes.Buffer
	command.Stderr = &stderr
	out, err := command.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, stderr.String())
	}
	var games []toldGame
	if err := json.Unmarshal(out, &games); err != nil {
		t.Fatal(err)
	}
	if len(games) != len(want) {
		t.Fatalf("%d games read of %d", len(games), len(want))
	}
	for i, g := range games {
		compare(t, i, g.Moves, asTold(want[i].Moves))
		if got, expect := g.Result, want[i].Result; got != expect {
			t.Errorf("game %d: result %s, want %s", i, got, expect)
		}
	}
}

// compare holds what a reader understood to what it should have.
func compare(t *testing.T, game int, got, want []told) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("game %d: %d moves, want %d", game, len(got), len(want))
		return
	}
	for i := range want {
		g, w := got[i], want[i]
		g.SAN = strings.TrimRight(g.SAN, "+#")
		if g.SAN != w.SAN || g.Comment != w.Comment || g.Clk != w.Clk || g.Emt != w.Emt || fmt.Sprint(g.NAGs) != fmt.Sprint(w.NAGs) || len(g.Lines) != len(w.Lines) {
			t.Errorf("game %d, move %d: %+v, want %+v", game, i, g, w)
			return
		}
		for k := range w.Lines {
			if g.Lines[k].Comment != w.Lines[k].Comment {
				t.Errorf("game %d, move %d: a variation begins with %q, want %q", game, i, g.Lines[k].Comment, w.Lines[k].Comment)
			}
			compare(t, game, g.Lines[k].Moves, w.Lines[k].Moves)
		}
	}
}
