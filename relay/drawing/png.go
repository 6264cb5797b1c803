package drawing

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"
	"strconv"
	"strings"

	"golang.org/x/image/vector"
)

// MostPixels bounds a picture: 8000 by 4000.
const MostPixels = 32_000_000

// PNG writes the drawing as a picture, scale pixels for each of its own. What a drawing
// without Ground leaves open stays transparent.
func (d *Drawing) PNG(w io.Writer, scale float64) error {
	picture, err := d.Picture(scale)
	if err != nil {
		return err
	}
	return png.Encode(w, picture)
}

// Picture returns the drawing as pixels. The error says that they would be too many.
func (d *Drawing) Picture(scale float64) (*image.RGBA, error) {
	width, height := int(math.Ceil(d.Width*scale)), int(math.Ceil(d.Height*scale))
	if width < 1 || height < 1 || width*height > MostPixels {
		return nil, fmt.Errorf("a picture of %d by %d pixels is not made; the most is %d", width, height, MostPixels)
	}
	c := canvas{to: image.NewRGBA(image.Rect(0, 0, width, height)), raster: vector.NewRasterizer(width, height), scale: scale, d: d}
	if d.Ground != "" {
		draw.Draw(c.to, c.to.Bounds(), image.NewUniform(colour(d.Ground, 1)), image.Point{}, draw.Src)
	}
	for i := range d.Shapes {
		c.draw(&d.Shapes[i])
	}
	return c.to, nil
}

// canvas is a picture that is being made.
type canvas struct {
	to     *image.RGBA
	raster *vector.Rasterizer
	scale  float64
	d      *Drawing
}

func (c *canvas) draw(s *Shape) {
	opacity := s.Opacity
	if opacity == 0 {
		opacity = 1
	}
	if s.Fill != "" {
		if pattern := c.d.pattern(s.Fill); pattern != nil {
			c.drawPattern(pattern, s, opacity)
		} else {
			c.fill(outlineOf(s), s.At, colour(s.Fill, opacity))
		}
	}
	if s.Stroke != "" && s.Thick > 0 {
		c.fill(stroked(outlineOf(s), s.Thick, s.Round), s.At, colour(s.Stroke, opacity))
	}
}

// fill fills outlines, however often they cover each other, once. Only the part of the
// picture that they reach is looked at.
func (c *canvas) fill(out outline, at Move, with color.Color) {
	by := at.scale()
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, line := range out {
		for i, p := range line.points {
			p = point{(at.X + by*p.x) * c.scale, (at.Y + by*p.y) * c.scale}
			line.points[i] = p
			low, high = point{math.Min(low.x, p.x), math.Min(low.y, p.y)}, point{math.Max(high.x, p.x), math.Max(high.y, p.y)}
		}
	}
	area := image.Rect(int(math.Floor(low.x)), int(math.Floor(low.y)), int(math.Ceil(high.x)), int(math.Ceil(high.y)))
	if math.IsInf(low.x, 1) || !area.Overlaps(c.to.Bounds()) {
		return
	}
	area = area.Intersect(c.to.Bounds())
	c.raster.Reset(area.Dx(), area.Dy())
	for _, line := range out {
		for i, p := range line.points {
			x, y := float32(p.x-float64(area.Min.X)), float32(p.y-float64(area.Min.Y))
			if i == 0 {
				c.raster.MoveTo(x, y)
			} else {
				c.raster.LineTo(x, y)
			}
		}
		c.raster.ClosePath()
	}
	c.raster.Draw(c.to, area, image.NewUniform(with), image.Point{})
}

// outlineOf returns the edge of a shape, before it is moved.
func outlineOf(s *Shape) outline {
	switch s.Kind {
	case Rect:
		if s.R > 0 {
			return parsePath(roundedRect(s))
		}
		return outline{box(s.X, s.Y, s.W, s.H)}
	case Circle:
		return outline{disc(s.X, s.Y, s.R)}
	case Text:
		d, _ := glyphs(s)
		return parsePath(d)
	}
	return parsePath(s.D)
}

func box(x, y, w, h float64) contour {
	return contour{[]point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, true}
}

func roundedRect(s *Shape) string {
	r := min(s.R, s.W/2, s.H/2)
	arc := func(x, y float64) string { return fmt.Sprintf("a%g %g 0 0 1 %g %g", r, r, x, y) }
	return fmt.Sprintf("M%g %gh%g%sv%g%sh%g%sv%g%sZ", s.X+r, s.Y, s.W-2*r, arc(r, r), s.H-2*r, arc(-r, r), -(s.W - 2*r), arc(-r, -r), -(s.H - 2*r), arc(r, -r))
}

// colour reads "#12161c", and black where that is none.
func colour(text string, opacity float64) color.NRGBA {
	n, err := strconv.ParseUint(strings.TrimPrefix(text, "#"), 16, 32)
	if err != nil {
		n = 0
	}
	return color.NRGBA{uint8(n >> 16), uint8(n >> 8), uint8(n), uint8(math.Round(255 * opacity))}
}
