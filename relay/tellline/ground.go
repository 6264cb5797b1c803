package tellline

import (
	"fmt"
	"math"
	"strings"

	"clocktell/relay/drawing"
)

// drawGround draws the lanes: what is to come, and over it what has passed.
func (p *painter) drawGround() {
	for _, part := range []struct {
		end  float64
		fill string
	}{{p.Width, p.Palette.Ahead}, {p.x, p.Palette.Lane}} {
		for _, y := range p.tops {
			p.out.Add(p.lanes(y, part.end, part.fill)...)
		}
	}
}

// tooth is that of a torn edge.
func (s *Size) tooth() float64 { return math.Max(2, round(s.Lane/7)) }

// lanes is a lane up to an end, in two pieces where time is torn out. The teeth stand in
// the break, so that they cut no move.
func (p *painter) lanes(y, end float64, fill string) []drawing.Shape {
	from, to, torn := p.chart.tear()
	if !torn {
		return []drawing.Shape{rect(0, y, end, p.Size.Lane, fill)}
	}
	tooth, below := p.Size.tooth(), y+p.Size.Lane
	left := path("M0 %gL%sL0 %gz", y, zigzag(from, y, below, tooth), below)
	right := path("M%g %gL%sL%g %gz", end, y, zigzag(to-tooth, y, below, tooth), end, below)
	return []drawing.Shape{{Kind: drawing.Path, D: left, Fill: fill}, {Kind: drawing.Path, D: right, Fill: fill}}
}

// zigzag is the points of a torn edge from y0 to y1, its teeth to the right of x.
func zigzag(x, y0, y1, tooth float64) string {
	points := []string{path("%g %g", along(x, y0, tooth), y0)}
	for i := math.Ceil(y0 / tooth); i*tooth < y1; i++ {
		points = append(points, path("%g %g", toothAt(x, i, tooth), i*tooth))
	}
	return strings.Join(append(points, path("%g %g", along(x, y1, tooth), y1)), "L")
}

func toothAt(x, i, tooth float64) float64 {
	if math.Mod(i, 2) != 0 {
		return x + tooth
	}
	return x
}

func along(x, y, tooth float64) float64 {
	i := math.Floor(y / tooth)
	share := y/tooth - i
	return toothAt(x, i, tooth)*(1-share) + toothAt(x, i+1, tooth)*share
}

// tear is a break: its torn edges and its length, which gives way to a pole between them.
func (p *painter) tear(from, to float64) []drawing.Shape {
	tooth, thick := p.Size.tooth(), 1.0
	if p.Size.Lane >= 18 {
		thick = 1.5
	}
	var out []drawing.Shape
	for _, y := range p.tops {
		d := "M" + zigzag(from, y, y+p.Size.Lane, tooth) + "M" + zigzag(to-tooth, y, y+p.Size.Lane, tooth)
		out = append(out, drawing.Shape{Kind: drawing.Path, D: d, Stroke: p.Palette.Quiet, Thick: thick})
	}
	if !(p.pole >= from && p.pole <= to) {
		return append(out, p.gone(from, to)...)
	}
	if p.pole < (from+to)/2 {
		return append(out, p.gone(p.pole+p.Size.Pole, to-tooth)...)
	}
	return append(out, p.gone(from+tooth, p.pole)...)
}

// gone is the length of what is torn out, over both lanes.
func (p *painter) gone(from, to float64) []drawing.Shape {
	size := p.Size.Tear[1]
	if size == 0 {
		return nil
	}
	minutes := fmt.Sprintf("%.0f", round(p.chart.goneMs()/minute))
	x, middle := (from+to)/2, (p.tops[0]+p.tops[1]+p.Size.Lane)/2
	line := func(say string, y float64) drawing.Shape { return text(x, y, size, 600, p.Palette.Quiet, say) }
	if one := minutes + " min"; wide(one, size) <= to-from-size {
		return []drawing.Shape{line(one, middle+size*baseline)}
	}
	return []drawing.Shape{line(minutes, middle-size*0.15), line("min", middle+size*0.85)}
}
