package diagram

import (
	"fmt"
	"math"
	"strings"

	"clocktell/relay/drawing"
)

// Measures of marks, as static/lib/pointing.js has them; TestMarks holds these drawings to
// those.
const (
	ring       = 41.0
	reach      = 33.0
	crossArm   = 13.0
	crossClear = 10.0
	dash       = 16.0
	dashGap    = 19.0
	dashGapMin = 12.5
	dashesMin  = 3
	foot       = 42.0
	cradleSide = 36.0
	cradleTop  = 18.0
	dot        = 12.0
	wallOut    = 43.0
	wallIn     = 33.0
	wallHalf   = 36.0
	wallEdges  = 6
	shaft      = 6.5
	headHalf   = 21.0
	headLong   = 34.0
	headPoint  = 6.0

	lineThick   = 7.0
	casingThick = 2.6
)

// colour of each kind of mark.
var colour = map[string]string{"look": "#f3f1ec", "danger": "#d55e00", "guard": "#3bc79b", "plan": "#0072b2", "weak": "#cc79a7"}

type point [2]float64

func middle(square string, turned bool) (point, bool) {
	if len(square) != 2 || square[0] < 'a' || square[0] > 'h' || square[1] < '1' || square[1] > '8' {
		return point{}, false
	}
	x, y := place(square, turned)
	return point{x + Square/2, y + Square/2}, true
}

// pointed draws a mark, cased in ink.
func pointed(m Mark, turned, manned bool) []drawing.Shape {
	lines, areas, ok := shapeOf(m, turned, manned)
	if !ok {
		return nil
	}
	paint := colour[m.Kind]
	var out []drawing.Shape
	add := func(d, fill, stroke string, thick float64) {
		if d != "" {
			out = append(out, drawing.Shape{Kind: drawing.Path, D: d, Fill: fill, Stroke: stroke, Thick: thick, Round: true})
		}
	}
	add(lines, "", ink, lineThick+2*casingThick)
	add(areas, ink, ink, 2*casingThick)
	add(lines, "", paint, lineThick)
	add(areas, paint, "", 0)
	return out
}

// shapeOf returns how a mark is drawn: lines to be stroked and areas to be filled; false for
// one that names no square, or no meaning known here.
func shapeOf(m Mark, turned, manned bool) (lines, areas string, ok bool) {
	to, ok := middle(m.To, turned)
	if !ok || colour[m.Kind] == "" {
		return "", "", false
	}
	from, way := middle(m.From, turned)
	way = way && m.From != m.To
	switch m.Kind {
	case "look":
		lines = circle(to, ring)
	case "danger":
		if lines = cross(to); way {
			lines = danger(to, from, manned)
		}
	case "guard":
		if way {
			lines = line(towards(from, to, reach), nearest(holds(to), from))
		}
		lines += cradle(to)
	case "weak":
		lines = wall(to, -1) + wall(to, 1)
	case "plan":
		if areas = circle(to, dot); way {
			areas = arrow(from, to)
		}
	}
	return lines, areas, true
}

// danger is a broken line that ends in a cross: outside of the attacker, and of a man who
// stands there, as far as there is room for it to be seen as a broken line.
func danger(to, from point, manned bool) string {
	x, y := math.Abs(to[0]-from[0]), math.Abs(to[1]-from[1])
	length := math.Hypot(x, y)
	clear := crossArm*(x+y)/length + crossClear
	room := length - clear - (dashesMin-1)*dashGapMin
	off, end := math.Min(ring, room), to
	if manned {
		off = math.Min(ring, room/2)
		end = towards(to, from, off)
	}
	return dashes(towards(from, to, off), towards(end, from, clear)) + cross(end)
}

func towards(a, b point, far float64) point {
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	return point{a[0] + (b[0]-a[0])/length*far, a[1] + (b[1]-a[1])/length*far}
}

// dashes is a line of three dashes at least that begins and ends with a whole one.
func dashes(a, b point) string {
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	count := math.Max(dashesMin, math.Floor((length+dashGap)/(dash+dashGap)))
	long := math.Max(0.1, math.Min(dash, (length-(count-1)*dashGapMin)/count))
	pitch := (length - long) / (count - 1)
	var d strings.Builder
	for i := range int(count) {
		d.WriteString(line(towards(a, b, float64(i)*pitch), towards(a, b, float64(i)*pitch+long)))
	}
	return d.String()
}

func cross(p point) string {
	const arm = crossArm
	return line(point{p[0] - arm, p[1] - arm}, point{p[0] + arm, p[1] + arm}) + line(point{p[0] - arm, p[1] + arm}, point{p[0] + arm, p[1] - arm})
}

func cradle(p point) string {
	left, right, top := p[0]-cradleSide, p[0]+cradleSide, p[1]+cradleTop
	handle := top + (foot-cradleTop)/0.75
	return "M" + at(point{left, top}) + "C" + at(point{left, handle}) + " " + at(point{right, handle}) + " " + at(point{right, top})
}

func holds(p point) []point {
	return []point{{p[0] - cradleSide, p[1] + cradleTop}, {p[0] + cradleSide, p[1] + cradleTop}, {p[0], p[1] + foot}}
}

func wall(p point, side float64) string {
	const height = 2 * wallHalf / wallEdges
	var joints []string
	for i := range wallEdges + 1 {
		off := wallOut
		if i%2 == 1 {
			off = wallIn
		}
		joints = append(joints, at(point{p[0] + side*off, p[1] - wallHalf + float64(i)*height}))
	}
	return "M" + strings.Join(joints, "L")
}

func nearest(points []point, to point) point {
	best := points[0]
	for _, p := range points[1:] {
		if math.Hypot(p[0]-to[0], p[1]-to[1]) < math.Hypot(best[0]-to[0], best[1]-to[1]) {
			best = p
		}
	}
	return best
}

// arrow is a dot, a shaft and a head.
func arrow(from, to point) string {
	tip, neck := towards(to, from, headPoint), towards(to, from, headPoint+headLong)
	a, b := across(from, from, to, shaft)
	c, d := across(neck, from, to, shaft)
	e, f := across(neck, from, to, headHalf)
	var corners []string
	for _, p := range []point{a, c, e, tip, f, d, b} {
		corners = append(corners, at(p))
	}
	return "M" + strings.Join(corners, "L") + "Z" + circle(from, dot)
}

// across returns the two points beside p, square to the way.
func across(p, a, b point, half float64) (point, point) {
	t := towards(a, b, half)
	dx, dy := t[0]-a[0], t[1]-a[1]
	return point{p[0] - dy, p[1] + dx}, point{p[0] + dy, p[1] - dx}
}

func circle(p point, r float64) string {
	return fmt.Sprintf("M%sa%g %g 0 1 0 %g 0a%g %g 0 1 0 %g 0Z", at(point{p[0] - r, p[1]}), r, r, 2*r, r, r, -2*r)
}

func line(a, b point) string { return "M" + at(a) + "L" + at(b) }

func at(p point) string {
	return fmt.Sprintf("%g %g", math.Floor(p[0]*10+0.5)/10, math.Floor(p[1]*10+0.5)/10)
}
