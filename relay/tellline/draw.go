package tellline

import (
	"math"

	"clocktell/relay/drawing"
)

// Style says how a game is drawn.
type Style struct {
	Size    Size
	Width   float64 // of the lanes
	Palette Palette
	Moves   bool  // moves are written at their joints, where the size has type for it
	First   []int // indices of plies that are written before others
	// Fills lets a game that is over take the whole width, whatever length of time the lane
	// shows then. Pages leave room for what is to come.
	Fills bool
}

// Line is a drawn tell line.
type Line struct {
	drawing.Drawing
	chart   *chart
	written map[int]bool
}

// Joint returns where the ply at an index ended, in pixels of the lanes.
func (l *Line) Joint(i int) float64 { return l.chart.joints[i+1] }

// Gone reports that the ply at an index lies in a break and is not drawn.
func (l *Line) Gone(i int) bool { return l.chart.isGone(i) }

// Written reports that the move of the ply at an index is written at its joint.
func (l *Line) Written(i int) bool { return l.written[i] }

// Lanes returns the upper edges of both lanes.
func (st *Style) Lanes() [2]float64 { return st.Size.tops() }

// Draw draws a game.
func Draw(g *Game, st Style) *Line {
	p := &painter{g: g, Style: st, tops: st.Size.tops()}
	spent := make([]float64, len(g.Plies))
	for i := range g.Plies {
		spent[i] = g.Plies[i].ms()
	}
	p.chart = p.filled(spent, layout(spent, g.Head.ms(), st.Width, &p.Size))
	p.pole = p.poleAt()
	p.out = &Line{Drawing: drawing.Drawing{Width: st.Width, Height: st.Size.Height(), Patterns: patterns(&p.Size, &p.Palette)}, chart: p.chart, written: make(map[int]bool)}
	p.x = math.Min(p.chart.after(g.Head.ms()), st.Width)
	p.drawGround()
	marks, figures := p.axis()
	p.out.Add(marks...)
	p.drawPlies()
	p.drawRunning()
	p.out.Add(p.figures...)
	p.out.Add(figures...)
	p.drawHead()
	p.drawNovelty()
	return p.out
}

// filled returns the chart of a game that is over on the scale at which it fills its lane.
func (p *painter) filled(spent []float64, c *chart) *chart {
	if !p.Fills || p.g.Head != (Head{}) || c.playedMs() == 0 {
		return c
	}
	low, high := 1.0, c.window
	at := func(window float64) *chart { return newChart(spent, window, c.width, c.least, c.gap) }
	for range 60 {
		if middle := (low + high) / 2; at(middle).played() > p.Width {
			low = middle
		} else {
			high = middle
		}
	}
	return at(high)
}

// painter draws one game.
type painter struct {
	Style
	g       *Game
	chart   *chart
	tops    [2]float64
	pole    float64 // where the new move stands; NaN: there is none
	x       float64 // of the present
	figures []drawing.Shape
	out     *Line
}

func rect(x, y, w, h float64, fill string) drawing.Shape {
	return drawing.Shape{Kind: drawing.Rect, X: x, Y: y, W: w, H: h, Fill: fill}
}

func text(x, y, size float64, weight int, fill, say string) drawing.Shape {
	return drawing.Shape{Kind: drawing.Text, X: x, Y: y, Size: size, Weight: weight, Fill: fill, Say: say, Anchor: drawing.Middle}
}

// drawPlies draws the moves, and gathers what is written on them.
func (p *painter) drawPlies() {
	outside := p.Size.Under >= p.Size.Sign+4 && !p.Moves
	for i := range p.g.Plies {
		if p.chart.isGone(i) {
			continue
		}
		ply := &p.g.Plies[i]
		lane := p.g.lane(ply.side())
		x0, x1 := p.chart.joints[i], p.chart.joints[i+1]
		p.out.Add(p.move(ply, lane, x0, x1)...)
		if ply.Quality == QualityEstimated {
			p.out.Add(p.torn(ply.Look, lane, x0, x1))
		}
		if ply.Mark != "" {
			p.figures = append(p.figures, p.sign(ply.Mark, lane, x1, outside)...)
		}
		p.figures = append(p.figures, p.timeOf(ply, lane, x0, x1)...)
	}
	if from, to, torn := p.chart.tear(); torn {
		p.figures = append(p.figures, p.tear(from, to)...)
	}
	if p.Moves && p.Size.Joints > 0 {
		for _, l := range p.labels() {
			p.out.written[l.i] = true
			p.figures = append(p.figures, p.jointText(l)...)
		}
	}
}

// axis returns the minutes in the lanes, and their figures between them.
func (p *painter) axis() (marks, figures []drawing.Shape) {
	written := p.Size.Axis > 0
	width, apart := p.Width, apartMarks
	if written {
		width, apart = p.Width-axisEnd, apartFigures*p.Size.Axis
	}
	headless := !p.g.Head.Held && !p.g.Head.Runs
	for _, m := range p.chart.axis(width, apart) {
		if m.minute > 0 && p.clear(m.x, clearMark) && (headless || math.Abs(m.x-p.x) >= clearMark) {
			for _, y := range p.tops {
				marks = append(marks, rect(m.x-1, y, 2, p.Size.Lane, p.Palette.Ground))
			}
		}
		if written && p.clear(m.x, clearFigure) && (headless || math.Abs(m.x-p.x) >= clearFigure) {
			figures = append(figures, p.figure(m))
		}
	}
	return marks, figures
}

// clear reports that a place is so far from the pole and the break.
func (p *painter) clear(x, by float64) bool {
	if !math.IsNaN(p.pole) && math.Abs(x-p.pole) < by {
		return false
	}
	_, to, torn := p.chart.tear()
	return !torn || math.Abs(x-to) >= by
}

// block is a move still running, or a think.
func (p *painter) block(look string, lane int, x, width float64) drawing.Shape {
	y, height := p.tops[lane], p.Size.Lane
	switch {
	case look == LookUnsure:
		return p.hollow(x, y, width, height)
	case look == LookNone && width < height/2:
		return p.column(x+width/2, y)
	case look == LookPreparation:
		return rect(x, p.lowTop(lane), width, p.Size.low(), linesIn[lane])
	case look == LookThinking:
		return rect(x, y, width, height, p.Palette.Thinking)
	case look == LookTrouble:
		return rect(x, y, width, height, hatched)
	}
	return rect(x, y, width, height, dotsIn[lane])
}

// lowTop is the upper edge of what is low: it stands on the edge towards the other lane.
func (p *painter) lowTop(lane int) float64 {
	if lane == 0 {
		return p.tops[0] + p.Size.Lane - p.Size.low()
	}
	return p.tops[1]
}
