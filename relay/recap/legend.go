package recap

import (
	"fmt"
	"strings"

	"clocktell/relay/clock"
	"clocktell/relay/drawing"
	"clocktell/relay/tellline"
)

// Measures of a sample: the drawing of the lane, small.
const (
	sampleWide = 34.0
	sampleHigh = 18.0
)

// legendOf explains the looks that a game has.
func legendOf(g *Game, in *Words) []legend {
	have := make(map[string]bool)
	for i := range g.Board.Plies {
		look := string(g.Board.Plies[i].Look)
		if g.Board.Plies[i].Timed.SpentQuality == clock.QualityNone {
			look = tellline.LookNone
		}
		have[look] = true
	}
	var out []legend
	for _, l := range []struct{ look, word string }{
		{tellline.LookPreparation, in.Preparation}, {tellline.LookUnsure, in.Unsure}, {tellline.LookThinking, in.Think},
		{tellline.LookTrouble, in.Trouble}, {tellline.LookNone, in.NoReading},
	} {
		if have[l.look] {
			d := sample(l.look)
			svg := d.SVG(drawing.SVGStyle{ID: "sample-" + l.look + "-", Inside: true})
			out = append(out, legend{hidden(svg), l.word})
		}
	}
	return out
}

// sample is a piece of a lane of a look.
func sample(look string) *drawing.Drawing {
	p := tellline.Paper
	d := &drawing.Drawing{Width: sampleWide, Height: sampleHigh, Patterns: []drawing.Pattern{
		{Name: "lines", Kind: drawing.Lines, Pitch: 5, Thick: 2, Y: 4, One: p.Preparation},
		{Name: "bands", Kind: drawing.Bands, Pitch: 7, Thick: 3, One: p.Trouble, Two: p.Hatch},
	}}
	box := func(x, w float64, fill string) { // as high as what is played from preparation
		d.Add(drawing.Shape{Kind: drawing.Rect, X: x, Y: 4, W: w, H: 14, Fill: fill})
	}
	switch look {
	case tellline.LookPreparation:
		for _, x := range []float64{0, 12, 24} {
			box(x, 6, "lines")
			box(x+6, 4, p.Preparation)
		}
	case tellline.LookUnsure:
		d.Add(drawing.Shape{Kind: drawing.Rect, X: 1.5, Y: 1.5, W: 31, H: 15, Stroke: p.Hollow, Thick: 3})
	case tellline.LookThinking:
		d.Add(drawing.Shape{Kind: drawing.Rect, W: sampleWide, H: sampleHigh, Fill: p.Thinking})
	case tellline.LookTrouble:
		d.Add(drawing.Shape{Kind: drawing.Rect, W: sampleWide, H: sampleHigh, Fill: "bands"})
	default:
		for _, x := range []float64{5, 13, 21, 29} {
			d.Add(drawing.Shape{Kind: drawing.Circle, X: x, Y: 9, R: 2, Fill: p.Quiet})
		}
	}
	return d
}

// doubtsOf tells how many times are not as they were read; "" none.
func doubtsOf(g *Game, in *Words) string {
	if !g.timed() {
		return in.NoClocks
	}
	n := 0
	for i := range g.Board.Plies {
		if q := g.Board.Plies[i].Timed.SpentQuality; markOf(&g.Board.Plies[i]) != "" || q == clock.QualityEstimated || q == clock.QualityNone {
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return strings.TrimSpace(fill(in.Doubts, fmt.Sprint(n)))
}
