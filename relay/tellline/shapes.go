package tellline

import (
	"fmt"
	"math"
	"strings"
	"time"

	"clocktell/relay/drawing"
)

// timeFrom is how long a think is to carry its time.
const timeFrom = 90 * time.Second

// move is a finished move: a low tick at the press with speed lines before it, or a block.
func (p *painter) move(ply *Ply, lane int, x0, x1 float64) []drawing.Shape {
	look := ply.Look
	if ply.Quality == QualityNone {
		look = LookNone
	}
	if look != LookPreparation {
		return []drawing.Shape{p.block(look, lane, x0, math.Max(1.5, x1-x0-p.Size.Rest))}
	}
	at := math.Max(x0, x1-p.Size.Tick)
	press := rect(at, p.lowTop(lane), x1-at, p.Size.low(), p.Palette.Preparation)
	if at-x0 < shortestRow {
		return []drawing.Shape{press}
	}
	return []drawing.Shape{rect(x0, p.lowTop(lane), at-x0, p.Size.low(), linesIn[lane]), press}
}

// torn tears the outer edge of a move whose time is estimated.
func (p *painter) torn(look string, lane int, x0, x1 float64) drawing.Shape {
	tooth := math.Max(2, round(p.Size.Lane/10))
	height := p.Size.Lane
	if look == LookPreparation {
		height = p.Size.low()
	}
	y, deep := p.tops[0]+p.Size.Lane-height, 1.5*tooth
	if lane == 1 {
		y, deep = p.tops[1]+height, -1.5*tooth
	}
	var d strings.Builder
	for i := range int(math.Max(1, math.Floor((x1-x0)/(2*tooth)))) {
		d.WriteString(path("M%g %gl%g %gh%gl%g %gz", x0+2*tooth*float64(i), y, tooth/2, deep, tooth, tooth/2, -deep))
	}
	return drawing.Shape{Kind: drawing.Path, D: d.String(), Fill: p.Palette.Ground}
}

// signs are the outlines of marks on a grid of 24, as in static/lib/marks.js.
var signs = map[string]string{
	MarkMended:   "M12 2.5L21.5 12L12 21.5L2.5 12z",
	MarkDoubtful: "M12 3L22 20.5H2zM12 9.5V15",
	MarkUnread:   "M12 3L22 20.5H2zM12 9.5V15",
}

// sign is the sign of a reading that is not as it was read, at the end of its move.
func (p *painter) sign(mark string, lane int, x float64, outside bool) []drawing.Shape {
	size := p.Size.Sign
	d := signs[mark]
	if d == "" || size == 0 {
		return nil
	}
	off, colour := 1.0, p.Palette.Text
	if outside {
		off, colour = -size-4, p.Palette.Quiet
	}
	y := p.tops[0] + off
	if lane == 1 {
		y = p.tops[1] + p.Size.Lane - size - off
	}
	at := drawing.Move{X: x - size/2 - 2, Y: y, By: size / 24}
	line := drawing.Shape{Kind: drawing.Path, D: d, Stroke: colour, Thick: 3, Round: true, At: at}
	if outside {
		return []drawing.Shape{line}
	}
	cased := line
	cased.Stroke, cased.Thick = p.Palette.Ground, 9
	return []drawing.Shape{cased, line}
}

// column is dots one above the other: the pattern would be cut by a move this short.
func (p *painter) column(x, y float64) drawing.Shape {
	r := p.Size.Dots[1]
	count := math.Max(2, round(p.Size.Lane/10))
	pitch := p.Size.Lane / count
	var d strings.Builder
	for i := range int(count) {
		d.WriteString(path("M%g %ga%g %g 0 1 0 %g 0a%g %g 0 1 0 %g 0", x-r, y+pitch*(float64(i)+0.5), r, r, 2*r, r, r, -2*r))
	}
	return drawing.Shape{Kind: drawing.Path, D: d.String(), Fill: p.Palette.Quiet}
}

// hollowEdge is how thick the edge of a hollow block is.
func hollowEdge(width, height float64) float64 {
	s := 1.5
	if height >= 24 {
		s = 3
	} else if height >= 16 {
		s = 2
	}
	return math.Min(s, math.Max(1, width/4))
}

// hollow is a block without its filling.
func (p *painter) hollow(x, y, width, height float64) drawing.Shape {
	s := hollowEdge(width, height)
	return drawing.Shape{Kind: drawing.Rect, X: x + s/2, Y: y + s/2, W: math.Max(0, width-s), H: height - s, Stroke: p.Palette.Hollow, Thick: s}
}

// timeOf is the time on a long think; nothing where it does not fit.
func (p *painter) timeOf(ply *Ply, lane int, x0, x1 float64) []drawing.Shape {
	size := p.Size.Time
	thought := ply.Look == LookThinking || ply.Look == LookUnsure
	if size == 0 || !thought || ply.Quality == QualityNone || ply.Spent < timeFrom {
		return nil
	}
	say := p.g.lasted(ply)
	if wide(say, size)+size*beside > x1-x0-p.Size.Rest {
		return nil
	}
	colour := p.Palette.OnThinking
	if ply.Look == LookUnsure {
		colour = p.Palette.Text
	}
	return []drawing.Shape{text((x0+x1-p.Size.Rest)/2, p.tops[lane]+p.Size.Lane/2+size*baseline, size, 600, colour, say)}
}

// figure is a minute of the axis, between the lanes.
func (p *painter) figure(m axisMark) drawing.Shape {
	y := p.tops[0] + p.Size.Lane + p.Size.Gap/2 + p.Size.Axis*baseline
	if m.minute == 0 {
		first := text(m.x, y, p.Size.Axis, 500, p.Palette.Quiet, "0 min")
		first.Anchor = ""
		return first
	}
	return text(m.x, y, p.Size.Axis, 500, p.Palette.Quiet, fmt.Sprint(m.minute))
}

// round is Math.round of JavaScript: halves go up.
func round(x float64) float64 { return math.Floor(x + 0.5) }

// path writes the d of a path, its lengths to a hundredth of a pixel.
func path(format string, parts ...any) string {
	for i, part := range parts {
		if x, ok := part.(float64); ok {
			parts[i] = math.Round(x*100) / 100
		}
	}
	return fmt.Sprintf(format, parts...)
}
