package drawing

import "math"

// drawPattern fills a shape, which must be a Rect that is not moved, with a pattern.
func (c *canvas) drawPattern(p *Pattern, s *Shape, opacity float64) {
	if s.Kind != Rect {
		return
	}
	within := [4]float64{s.X, s.Y, s.X + s.W, s.Y + s.H}
	switch p.Kind {
	case Lines:
		var out outline
		for y := firstAt(p.Y, p.Pitch, s.Y); y < s.Y+s.H; y += p.Pitch {
			out = append(out, clipped(box(s.X, y, s.W, p.Thick), within))
		}
		c.fill(out, s.At, colour(p.One, opacity*linesOpacity))
	case Bands:
		c.fill(outline{box(s.X, s.Y, s.W, s.H)}, s.At, colour(p.One, opacity))
		c.fill(bands(p, within), s.At, colour(p.Two, opacity))
	case Dots:
		var out outline
		for y := firstAt(p.Y, p.Pitch, s.Y); y < s.Y+s.H; y += p.Pitch {
			for x := firstAt(0, p.Pitch, s.X); x < s.X+s.W; x += p.Pitch {
				out = append(out, clipped(disc(x+p.Pitch/2, y+p.Pitch/2, p.Thick), within))
			}
		}
		c.fill(out, s.At, colour(p.One, opacity))
	}
}

// firstAt returns the last place of a row, which begins anywhere, at or before from.
func firstAt(origin, pitch, from float64) float64 {
	return origin + math.Floor((from-origin)/pitch)*pitch
}

// bands returns the bands of a pattern inside of a box: turned by 45 degrees they lie
// where (x + y) / sqrt 2 is within the first Thick of each Pitch.
func bands(p *Pattern, within [4]float64) outline {
	x0, y0, x1, y1 := within[0], within[1], within[2], within[3]
	root := math.Sqrt2
	var out outline
	for at := firstAt(0, p.Pitch, (x0+y0)/root); at < (x1+y1)/root; at += p.Pitch {
		a, b := at*root, (at+p.Thick)*root
		out = append(out, clipped(contour{[]point{{a - y0, y0}, {b - y0, y0}, {b - y1, y1}, {a - y1, y1}}, true}, within))
	}
	return out
}

// clipped returns what of a convex outline lies inside of a box, by the four edges one after
// the other (Sutherland and Hodgman, 1974).
func clipped(c contour, within [4]float64) contour {
	edges := []func(point) float64{
		func(p point) float64 { return p.x - within[0] }, func(p point) float64 { return p.y - within[1] },
		func(p point) float64 { return within[2] - p.x }, func(p point) float64 { return within[3] - p.y },
	}
	points := c.points
	for _, inside := range edges {
		var kept []point
		for i, p := range points {
			q := points[(i+1)%len(points)]
			a, b := inside(p), inside(q)
			if a >= 0 {
				kept = append(kept, p)
			}
			if (a >= 0) != (b >= 0) {
				t := a / (a - b)
				kept = append(kept, point{p.x + t*(q.x-p.x), p.y + t*(q.y-p.y)})
			}
		}
		points = kept
	}
	return contour{points, true}
}
