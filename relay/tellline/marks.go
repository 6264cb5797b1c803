package tellline

import (
	"math"

	"clocktell/relay/drawing"
)

// poleAt returns where the new move stands, NaN without one.
func (p *painter) poleAt() float64 {
	for i := range p.g.Plies {
		if p.g.Novelty == 0 || p.g.Plies[i].Number != p.g.Novelty {
			continue
		}
		x := p.chart.joints[i+1]
		if !p.chart.isGone(i) {
			return x
		}
		from, to, _ := p.chart.tear()
		edge := (to - from) * edgeShare
		if x < (from+to)/2 {
			return from + edge
		}
		return to - edge
	}
	return math.NaN()
}

// drawNovelty draws the new move: a pole through both lanes, and the flag on it.
func (p *painter) drawNovelty() {
	if math.IsNaN(p.pole) {
		return
	}
	s := &p.Size
	up, cased := math.Min(6, s.Over), casing
	if s.Flag != nil {
		up = s.Flag[1] + casing
	}
	if s.Lane < 12 {
		cased = 1
	}
	top, bottom := p.tops[0]-up, p.tops[1]+s.Lane+math.Min(4, s.Under)
	for _, stand := range []struct {
		by   float64
		fill string
	}{{cased, p.Palette.Ground}, {0, p.Palette.Novelty}} {
		p.out.Add(rect(p.pole-stand.by, top, s.Pole+2*stand.by, bottom-top, stand.fill))
	}
	if s.Flag != nil {
		p.out.Add(p.flag(top)...)
	}
}

// flagSpan returns where the flag lies: it points back where there is room behind.
func (p *painter) flagSpan() (from, to float64) {
	x, width := p.pole, p.Size.Flag[0]
	if x+p.Size.Pole >= width {
		return x + p.Size.Pole - width, x + p.Size.Pole
	}
	return x, x + width
}

func (p *painter) flag(y float64) []drawing.Shape {
	width, height, size := p.Size.Flag[0], p.Size.Flag[1], p.Size.Flag[2]
	from, way := p.pole, 1.0
	if p.pole+p.Size.Pole >= width {
		from, way = p.pole+p.Size.Pole, -1
	}
	notch := height * 0.3
	d := path("M%g %gh%gl%g %gl%g %gh%gz", from, y, way*width, -way*notch, height/2, way*notch, height/2, -way*width)
	return []drawing.Shape{
		{Kind: drawing.Path, D: d, Fill: p.Palette.Novelty},
		text(from+way*(width-notch*0.8)/2, y+height/2+size*baseline, size, 600, p.Palette.OnNovelty, p.g.flagWord()),
	}
}

// drawRunning draws the move that is thought about, and the time of which nobody knows.
func (p *painter) drawRunning() {
	h := &p.g.Head
	run := p.chart.after(float64(h.Run.Milliseconds()))
	if h.Runs {
		from, to := p.chart.played(), math.Min(p.x, run)-p.Size.Rest
		if to > from && h.Look == LookUnsure {
			p.out.Add(p.running(from, to, p.tops[p.g.lane(h.Side)]))
		} else if to > from {
			p.out.Add(p.block(h.Look, p.g.lane(h.Side), from, to-from))
		}
	}
	if h.Held && p.x > run {
		for i, y := range p.tops {
			p.out.Add(rect(run, y, p.x-run, p.Size.Lane, dotsIn[i]))
		}
	}
}

// running is a hollow block that is open towards the present.
func (p *painter) running(from, to, y float64) drawing.Shape {
	s := hollowEdge(math.Max(0, p.Width-from), p.Size.Lane)
	d := path("M%g %gH%gV%gH%g", to, y+s/2, from+s/2, y+p.Size.Lane-s/2, to)
	return drawing.Shape{Kind: drawing.Path, D: d, Stroke: p.Palette.Hollow, Thick: s}
}

// drawHead draws the present: a bar in the lane whose clock runs, a thin line through the
// other, dashes when nobody knows.
func (p *painter) drawHead() {
	h, s := &p.g.Head, &p.Size
	thick, over := s.Head[0], s.Head[1]
	switch {
	case h.Held:
		dash, pitch := 2.0, 4.0
		if s.Lane >= 18 {
			dash, pitch = 3, 8
		}
		y2 := p.tops[1] + s.Lane + over
		for y := p.tops[0] - over; y < y2; y += pitch {
			p.out.Add(rect(p.x, y, math.Min(3, thick), math.Min(dash, y2-y), p.Palette.Quiet))
		}
	case h.Runs && p.g.lane(h.Side) == 0:
		p.out.Add(rect(p.x, p.tops[0]+s.Lane, math.Min(2, thick), p.tops[1]-p.tops[0], p.Palette.Quiet))
		p.out.Add(rect(p.x, p.tops[0]-over, thick, s.Lane+over, p.Palette.Text))
	case h.Runs:
		p.out.Add(rect(p.x, p.tops[0], math.Min(2, thick), p.tops[1]-p.tops[0], p.Palette.Quiet))
		p.out.Add(rect(p.x, p.tops[1], thick, s.Lane+over, p.Palette.Text))
	}
}
