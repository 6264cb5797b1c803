package drawing

import "math"

// miterMost is how many half thicknesses a sharp corner may reach out, as SVG has it.
const miterMost = 4

// stroked returns the area that a line of that thickness covers. All its pieces go round
// the same way, so that where they overlap they do not cancel out.
func stroked(lines outline, thick float64, round bool) outline {
	var out outline
	half := thick / 2
	for _, c := range lines {
		points := distinct(c)
		n := len(points)
		for i := range n {
			last := i == n-1
			if last && !c.closed {
				break
			}
			out = append(out, bar(points[i], points[(i+1)%n], half))
		}
		for i := range n {
			end := !c.closed && (i == 0 || i == n-1)
			switch {
			case round:
				out = append(out, disc(points[i].x, points[i].y, half))
			case !end:
				out = append(out, corner(points[(i+n-1)%n], points[i], points[(i+1)%n], half)...)
			}
		}
	}
	return out
}

// distinct returns the points of a line without those that repeat the one before.
func distinct(c contour) []point {
	var out []point
	for _, p := range c.points {
		if len(out) == 0 || math.Hypot(p.x-out[len(out)-1].x, p.y-out[len(out)-1].y) > 1e-6 {
			out = append(out, p)
		}
	}
	if n := len(out); c.closed && n > 1 && math.Hypot(out[0].x-out[n-1].x, out[0].y-out[n-1].y) <= 1e-6 {
		out = out[:n-1]
	}
	return out
}

// bar is a straight from a to b.
func bar(a, b point, half float64) contour {
	length := math.Hypot(b.x-a.x, b.y-a.y)
	if length == 0 {
		return contour{}
	}
	nx, ny := -(b.y-a.y)/length*half, (b.x-a.x)/length*half
	return rightWay([]point{{a.x + nx, a.y + ny}, {b.x + nx, b.y + ny}, {b.x - nx, b.y - ny}, {a.x - nx, a.y - ny}})
}

// corner fills the gap outside of a bend at b, up to a point as long as that is near.
func corner(a, b, c point, half float64) []contour {
	in, out := unit(a, b), unit(b, c)
	turn := in.x*out.y - in.y*out.x
	if math.Abs(turn) < 1e-9 {
		return nil
	}
	side := half
	if turn > 0 {
		side = -half
	}
	p, q := point{b.x - in.y*side, b.y + in.x*side}, point{b.x - out.y*side, b.y + out.x*side}
	points := []point{b, p, q}
	cos := in.x*out.x + in.y*out.y
	if miter := 1 / math.Sqrt((1+cos)/2); miter <= miterMost {
		mx, my := (p.x+q.x)/2-b.x, (p.y+q.y)/2-b.y
		length := math.Hypot(mx, my)
		points = []point{b, p, {b.x + mx/length*half*miter, b.y + my/length*half*miter}, q}
	}
	return []contour{rightWay(points)}
}

func unit(a, b point) point {
	length := math.Hypot(b.x-a.x, b.y-a.y)
	return point{(b.x - a.x) / length, (b.y - a.y) / length}
}

// rightWay turns an outline so that it goes round as disc does.
func rightWay(points []point) contour {
	area := 0.0
	for i, p := range points {
		q := points[(i+1)%len(points)]
		area += p.x*q.y - q.x*p.y
	}
	if area < 0 {
		for i, j := 0, len(points)-1; i < j; i, j = i+1, j-1 {
			points[i], points[j] = points[j], points[i]
		}
	}
	return contour{points, true}
}
