package drawing

import (
	"math"
	"strconv"
	"strings"
)

// point is a place in pixels.
type point struct{ x, y float64 }

// outline is a list of lines, each closed or open, curves made of short straights.
type outline []contour

type contour struct {
	points []point
	closed bool
}

// flatness is by how much a straight may leave the curve that it stands for, in pixels.
const flatness = 0.05

// parsePath reads the d of a path: M L H V C Q A Z in both cases, arcs of circles only. What it
// cannot read ends it, as browsers do.
func parsePath(d string) outline {
	p := pather{text: d}
	for p.step() {
	}
	return p.out
}

// pather follows the commands of a path.
type pather struct {
	text    string
	command byte
	at      point
	out     outline
}

// step takes one command with its numbers; false at the end.
func (p *pather) step() bool {
	p.text = strings.TrimLeft(p.text, " ,\t\n")
	if p.text == "" {
		return false
	}
	if c := p.text[0]; c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' {
		p.command, p.text = c, p.text[1:]
	} else if p.command&^0x20 == 'Z' {
		return false // numbers belong to nothing
	}
	counts := map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6, 'Q': 4, 'A': 7, 'Z': 0}
	upper := p.command &^ 0x20
	n, known := counts[upper]
	if !known {
		return false
	}
	v, ok := p.numbers(n)
	if !ok {
		return false
	}
	var base point
	if p.command != upper {
		base = p.at
	}
	p.draw(upper, v, base)
	if upper == 'M' {
		p.command = 'L' | p.command&0x20
	}
	return true
}

func (p *pather) draw(command byte, v []float64, base point) {
	to := func(i int) point { return point{base.x + v[i], base.y + v[i+1]} }
	switch command {
	case 'M':
		p.at = to(0)
		p.out = append(p.out, contour{points: []point{p.at}})
	case 'L':
		p.line(to(0))
	case 'H':
		p.line(point{base.x + v[0], p.at.y})
	case 'V':
		p.line(point{p.at.x, base.y + v[0]})
	case 'C':
		p.cubic(to(0), to(2), to(4))
	case 'Q':
		a, c, b := p.at, to(0), to(2)
		p.cubic(point{a.x + (c.x-a.x)*2/3, a.y + (c.y-a.y)*2/3}, point{b.x + (c.x-b.x)*2/3, b.y + (c.y-b.y)*2/3}, b)
	case 'A':
		p.arc(v[0], v[3] != 0, v[4] != 0, to(5))
	case 'Z':
		if n := len(p.out); n > 0 {
			p.out[n-1].closed = true
			p.at = p.out[n-1].points[0]
		}
	}
}

func (p *pather) numbers(n int) ([]float64, bool) {
	out := make([]float64, n)
	for i := range out {
		p.text = strings.TrimLeft(p.text, " ,\t\n")
		end, dot := 0, false
		for end < len(p.text) {
			c := p.text[end]
			if c >= '0' && c <= '9' || c == '-' && end == 0 || c == '.' && !dot {
				dot = dot || c == '.'
				end++
				continue
			}
			break
		}
		x, err := strconv.ParseFloat(p.text[:end], 64)
		if err != nil {
			return nil, false
		}
		out[i], p.text = x, p.text[end:]
	}
	return out, true
}

func (p *pather) line(to point) {
	n := len(p.out)
	if n == 0 {
		return
	}
	if p.out[n-1].closed {
		p.out = append(p.out, contour{points: []point{p.at}})
		n++
	}
	p.out[n-1].points = append(p.out[n-1].points, to)
	p.at = to
}

func (p *pather) cubic(c1, c2, to point) {
	a := p.at
	bend := math.Hypot(a.x-2*c1.x+c2.x, a.y-2*c1.y+c2.y) + math.Hypot(c1.x-2*c2.x+to.x, c1.y-2*c2.y+to.y)
	steps := max(2, int(math.Ceil(math.Sqrt(bend/flatness))))
	for i := 1; i <= steps; i++ {
		t := float64(i) / float64(steps)
		u := 1 - t
		p.line(point{
			u*u*u*a.x + 3*u*u*t*c1.x + 3*u*t*t*c2.x + t*t*t*to.x,
			u*u*u*a.y + 3*u*u*t*c1.y + 3*u*t*t*c2.y + t*t*t*to.y,
		})
	}
}

// arc draws an arc of a circle of radius r, the shorter or the longer way round.
func (p *pather) arc(r float64, long, sweep bool, to point) {
	from := p.at
	dx, dy := to.x-from.x, to.y-from.y
	half := math.Hypot(dx, dy) / 2
	if half == 0 {
		return
	}
	r = math.Max(r, half)
	off := math.Sqrt(r*r - half*half)
	if long == sweep {
		off = -off
	}
	middle := point{from.x + dx/2 - dy/(2*half)*off, from.y + dy/2 + dx/(2*half)*off}
	start := math.Atan2(from.y-middle.y, from.x-middle.x)
	turn := math.Atan2(to.y-middle.y, to.x-middle.x) - start
	if sweep && turn <= 0 {
		turn += 2 * math.Pi
	} else if !sweep && turn >= 0 {
		turn -= 2 * math.Pi
	}
	steps := roundSteps(r, turn)
	for i := 1; i < steps; i++ {
		a := start + turn*float64(i)/float64(steps)
		p.line(point{middle.x + r*math.Cos(a), middle.y + r*math.Sin(a)})
	}
	p.line(to)
}

func roundSteps(r, turn float64) int {
	return max(4, int(math.Ceil(math.Abs(turn)/(2*math.Acos(1-math.Min(0.5, flatness/math.Max(r, flatness)))))))
}

// disc is a circle as an outline.
func disc(x, y, r float64) contour {
	steps := roundSteps(r, 2*math.Pi)
	c := contour{closed: true}
	for i := range steps {
		a := 2 * math.Pi * float64(i) / float64(steps)
		c.points = append(c.points, point{x + r*math.Cos(a), y + r*math.Sin(a)})
	}
	return c
}
