package diagram

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"reflect"
	"testing"
)

type trial struct {
	Mark
	Turned bool `json:"turned"`
	Manned bool `json:"manned"`
}

// TestSameAsPages holds the pieces and the marks to those of the pages: static/pieces/pieces.js
// and static/lib/pointing.js, run by node.
func TestSameAsPages(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatal("node is missing; install Debian's package nodejs")
		}
		t.Skip("node is missing; install it to hold the drawings to the pages'")
	}
	trials := randomMarks()
	input, _ := json.Marshal(trials)
	if modules, err := fs.Glob(os.DirFS("../../static"), "lib/*.js"); err != nil || len(modules) == 0 {
		t.Fatalf("no modules of the pages: %v", err)
	} else {
		for _, name := range modules {
			os.ReadFile("../../static/" + name) // what node reads alone the go command does not know: an old result would stand
		}
	}
	command := exec.Command(node, "testdata/dump.mjs")
	command.Stdin = bytes.NewReader(input)
	output, err := command.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, err.(*exec.ExitError).Stderr)
	}
	var pages struct {
		Outlines map[string]struct {
			Slab      [2]float64
			Solids    []string
			Cuts      []string
			Eye, Ball [3]float64
		}
		Marks []*struct{ Lines, Areas string }
	}
	if err := json.Unmarshal(output, &pages); err != nil {
		t.Fatal(err)
	}
	if len(pages.Outlines) != 6 || len(men) != 6 || len(pages.Marks) != len(trials) {
		t.Fatalf("%d outlines, %d men, %d marks", len(pages.Outlines), len(men), len(pages.Marks))
	}
	for letter, m := range men {
		p := pages.Outlines[string(letter)]
		if theirs := (man{p.Slab, p.Solids, p.Cuts, p.Eye, p.Ball}); !reflect.DeepEqual(m, theirs) {
			t.Errorf("%c: %+v, the pages have %+v", letter, m, theirs)
		}
	}
	drawn := 0
	for i, tr := range trials {
		lines, areas, ok := shapeOf(tr.Mark, tr.Turned, tr.Manned)
		theirs := pages.Marks[i]
		switch {
		case ok != (theirs != nil):
			t.Errorf("%+v: drawn %v, on pages %v", tr, ok, theirs != nil)
		case ok && (lines != theirs.Lines || areas != theirs.Areas):
			t.Errorf("%+v: %q %q, the pages draw %q %q", tr, lines, areas, theirs.Lines, theirs.Areas)
		case ok:
			drawn++
		}
	}
	if drawn < 500 {
		t.Errorf("only %d marks compared", drawn)
	}
}

func randomMarks() []trial {
	r := rand.New(rand.NewPCG(3, 4))
	kinds := []string{"look", "danger", "guard", "plan", "weak", "other"}
	var out []trial
	for range 1000 {
		tr := trial{Mark{kinds[r.IntN(6)], "", squares[r.IntN(64)]}, r.IntN(2) == 0, r.IntN(2) == 0}
		if r.IntN(4) > 0 {
			tr.From = squares[r.IntN(64)]
		}
		if r.IntN(40) == 0 {
			tr.To = []string{"", "i9", "e44", "E4"}[r.IntN(4)]
		}
		out = append(out, tr)
	}
	return out
}

// TestPieces: every letter of a FEN stands where it should; what is no FEN is drawn as far as
// it can be read, and breaks nothing.
func TestPieces(t *testing.T) {
	got := pieces("rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1")
	if len(got) != 32 || got["e4"] != 'P' || got["e2"] != 0 || got["a8"] != 'r' || got["h1"] != 'R' {
		t.Errorf("%d men: %v", len(got), got)
	}
	for _, fen := range []string{"", "x", "9/9/9", "pppppppppppp/8/8/8/8/8/8/8/8/8/8", "8/8/8/8/8/8/8/8 w"} {
		if d := Draw(Position{FEN: fen, From: "e2", To: "e4"}); len(d.Shapes) < 64 {
			t.Errorf("%q: %d shapes", fen, len(d.Shapes))
		}
	}
}
