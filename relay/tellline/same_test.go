package tellline

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"clocktell/relay/drawing"
)

// asPages names colours as the pages do.
var asPages = Palette{
	Preparation: "var(--preparation)", Thinking: "var(--thinking)", Hollow: "var(--thinking)", Trouble: "var(--trouble)", Hatch: "var(--trouble-hatch)",
	Novelty: "var(--novelty)", Lane: "var(--lane)", Ahead: "var(--ahead)", Text: "var(--text)", Quiet: "var(--quiet)", Ground: "var(--ink)",
	OnThinking: "var(--ink)", OnNovelty: "var(--ink)",
}

// shown is a shape as dump.mjs tells it.
type shown struct {
	Kind, Fill, Stroke, Say, Anchor, Letters string
	Thick                                    float64
	Weight                                   int
	V, At                                    []float64
}

// asShown tells a shape of ours in the same way.
func asShown(s drawing.Shape) shown {
	out := shown{Fill: s.Fill, Stroke: s.Stroke, Thick: s.Thick}
	switch s.Kind {
	case drawing.Rect:
		out.Kind, out.V = "rect", []float64{s.X, s.Y, s.W, s.H}
	case drawing.Text:
		out.Kind, out.V, out.Say, out.Weight, out.Anchor = "text", []float64{s.X, s.Y, s.Size}, s.Say, s.Weight, string(s.Anchor)
	case drawing.Path:
		out.Kind = "path"
		for _, n := range regexp.MustCompile(`-?[\d.]+(?:e-?\d+)?`).FindAllString(s.D, -1) {
			x, _ := strconv.ParseFloat(n, 64)
			out.V = append(out.V, x)
		}
		if s.Stroke != asPages.Hollow { // a running hollow block is cut out of a whole one on pages
			out.Letters = regexp.MustCompile(`[-\d.e\s]`).ReplaceAllString(s.D, "")
		}
		if s.At != (drawing.Move{}) {
			out.At = []float64{s.At.X, s.At.Y, s.At.By}
		}
	}
	return out
}

// pixel is by how much a length may differ: nobody sees a tenth.
const pixel = 0.1

func differ(a, b shown) string {
	near := func(x, y []float64) bool {
		if len(x) != len(y) {
			return false
		}
		for i := range x {
			if !(math.Abs(x[i]-y[i]) <= pixel) {
				return false
			}
		}
		return true
	}
	if near(a.V, b.V) && near(a.At, b.At) && math.Abs(a.Thick-b.Thick) < 0.01 {
		a.V, b.V, a.At, b.At, a.Thick, b.Thick = nil, nil, nil, nil, 0, 0
		if reflect.DeepEqual(a, b) {
			return ""
		}
	}
	return fmt.Sprintf("ours %+v, the pages' %+v", a, b)
}

// trial is a game for both: Page is what the pages are given.
type trial struct {
	Size  string         `json:"size"`
	Width float64        `json:"width"`
	Moves bool           `json:"moves"`
	Top   string         `json:"top"`
	Board map[string]any `json:"board"`
	Now   float64        `json:"now"`
	Lost  *float64       `json:"lostAt"`
	game  Game
}

var sizes = map[string]Size{"recap": Recap, "panel": Panel}

// TestSameAsPages holds every shape that is drawn here to what the modules of the pages
// draw of the same game: kind, paint, text and place, in the same order.
func TestSameAsPages(t *testing.T) {
	if os.Getenv("CLOCKTELL_TESTS") == "relay" {
		t.Skip("CLOCKTELL_TESTS=relay leaves the pages out")
	}
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatal("node is missing; install Debian's package nodejs")
		}
		t.Skip("node is missing; install it to hold the drawing to the pages'")
	}
	random := rand.New(rand.NewPCG(1, 2))
	var trials []trial
	for i := range 400 {
		trials = append(trials, randomTrial(random, i))
	}
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
		Drawn []struct {
			Height float64
			Shapes []shown
		}
		Sizes map[string]map[string]any
	}
	if err := json.Unmarshal(output, &pages); err != nil {
		t.Fatal(err)
	}
	sameSizes(t, pages.Sizes)
	compared, broken := 0, 0
	for i, tr := range trials {
		line := Draw(&tr.game, Style{Size: sizes[tr.Size], Width: tr.Width, Palette: asPages, Moves: tr.Moves})
		if line.Height != pages.Drawn[i].Height {
			t.Errorf("trial %d: %g high, the pages' %g", i, line.Height, pages.Drawn[i].Height)
		}
		_, _, torn := line.chart.tear()
		if torn {
			broken++
		}
		ours := withoutLanes(line.Shapes)
		theirs := pages.Drawn[i].Shapes
		kept := theirs[:0]
		for _, s := range theirs {
			if s.Fill != "var(--lane)" && s.Fill != "var(--ahead)" {
				kept = append(kept, s)
			}
		}
		if len(ours) != len(kept) {
			t.Errorf("trial %d (%s, %d plies): %d shapes, the pages have %d", i, tr.Size, len(tr.game.Plies), len(ours), len(kept))
		}
		for k := range min(len(ours), len(kept)) {
			compared++
			if d := differ(asShown(ours[k]), kept[k]); d != "" {
				t.Errorf("trial %d (%s, %d plies), shape %d: %s", i, tr.Size, len(tr.game.Plies), k, d)
				break
			}
		}
	}
	t.Logf("%d shapes of %d games compared, %d of them with a break", compared, len(trials), broken)
	if compared < 10_000 || broken < 20 {
		t.Errorf("too little was compared")
	}
}

func withoutLanes(shapes []drawing.Shape) []drawing.Shape {
	var out []drawing.Shape
	for _, s := range shapes {
		if s.Fill != asPages.Lane && s.Fill != asPages.Ahead {
			out = append(out, s)
		}
	}
	return out
}

// sameSizes holds the measures to those of tellsizes.js.
func sameSizes(t *testing.T, theirs map[string]map[string]any) {
	t.Helper()
	for name, size := range sizes {
		ours := make(map[string]any)
		v := reflect.ValueOf(size)
		for i := range v.NumField() {
			ours[strings.ToLower(v.Type().Field(i).Name)] = v.Field(i).Interface()
		}
		a, _ := json.Marshal(ours)
		b, _ := json.Marshal(theirs[name])
		if string(a) != string(b) {
			t.Errorf("size %s: ours %s, the pages' %s", name, a, b)
		}
	}
}

var words = strings.Fields("e4 Nf3 O-O-O Qxd5+ exd8=Q# Rfe1 Nbxd7 a6")

func randomTrial(r *rand.Rand, n int) trial {
	count := []int{0, 1, 7, 30, 80, 140, 300}[r.IntN(7)]
	mean := []float64{4, 30, 120, 300}[r.IntN(4)]
	looks := []string{LookPreparation, LookThinking, LookUnsure, LookTrouble, LookNone}
	first := 1 + r.IntN(2)
	tr := trial{Size: []string{"recap", "panel"}[r.IntN(2)], Width: []float64{1096, 760, 300}[r.IntN(3)], Moves: r.IntN(2) == 0, Top: []string{"white", "black"}[r.IntN(2)]}
	if tr.Top == "black" {
		tr.game.Top = Black
	}
	tr.game.Step = []time.Duration{0, time.Second, time.Minute}[r.IntN(3)]
	plies := []map[string]any{}
	for i := range count {
		p := Ply{Number: first + i, SAN: words[r.IntN(len(words))], Spent: time.Duration(r.ExpFloat64()*mean*1000) * time.Millisecond, Quality: "read", Look: looks[r.IntN(4)]}
		if n%9 == 0 {
			p.Spent, p.Quality, p.Look = 0, QualityNone, LookNone
		}
		if r.IntN(12) == 0 {
			p.Quality = []string{QualityEstimated, QualityNone}[r.IntN(2)]
			p.Mark = []string{"", MarkMended, MarkDoubtful, MarkUnread}[r.IntN(4)]
		}
		tr.game.Plies = append(tr.game.Plies, p)
		plies = append(plies, map[string]any{"number": p.Number, "san": p.SAN, "spentMs": p.Spent.Milliseconds(), "quality": p.Quality, "look": p.Look, "mark": p.Mark})
	}
	tr.Board = map[string]any{"plies": plies, "result": "*", "running": "", "novelty": nil}
	if count > 0 && r.IntN(2) == 0 {
		tr.game.Novelty = first + r.IntN(count)
		tr.Board["novelty"] = map[string]any{"ply": tr.game.Novelty}
	}
	tr.setHead(r, first+count)
	return tr
}

// setHead gives the game a present: over, running, held, or a page that is lost.
func (tr *trial) setHead(r *rand.Rand, next int) {
	side := Side((next + 1) % 2)
	name := []string{"white", "black"}[side]
	step := tr.game.Step.Milliseconds()
	run := time.Duration(r.IntN(400_000)) * time.Millisecond
	clocks := [2]map[string]any{}
	for i := range clocks {
		clocks[i] = map[string]any{"state": "stopped", "at": 0, "spentMs": 0, "leftMs": 300_000, "quality": "read", "stepMs": step, "unsureMs": 0, "mark": ""}
	}
	tells := map[string]any{"verdict": "thinking", "thinking": 0.95, "trouble": 0}
	switch r.IntN(4) {
	case 0:
		tr.Board["result"] = "1-0"
	case 1:
		clocks[side]["state"], clocks[side]["spentMs"] = "held", run.Milliseconds()
		tr.game.Head = Head{Held: true, Dots: run}
	default:
		look := []string{LookPreparation, LookThinking, LookUnsure, LookTrouble}[r.IntN(4)]
		tells = map[string]any{
			LookPreparation: map[string]any{"verdict": "preparation", "thinking": 0.1, "trouble": 0}, LookThinking: tells,
			LookUnsure: map[string]any{"verdict": "thinking", "thinking": 0.7, "trouble": 0}, LookTrouble: map[string]any{"verdict": "thinking", "thinking": 1, "trouble": 2},
		}[look].(map[string]any)
		clocks[side]["state"], clocks[side]["spentMs"] = "running", run.Milliseconds()
		tr.Board["running"] = name
		tr.game.Head = Head{Runs: true, Side: side, Look: look, Run: run}
		if r.IntN(3) == 0 {
			lost := 0.0
			tr.Lost, tr.Now = &lost, 30_000
			tr.game.Head.Dots, tr.game.Head.Held = 30*time.Second, true
		}
	}
	tr.Board["white"], tr.Board["black"] = map[string]any{"clock": clocks[0], "tell": tells}, map[string]any{"clock": clocks[1], "tell": tells}
}
