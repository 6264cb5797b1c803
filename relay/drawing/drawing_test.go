package drawing

import (
	"bytes"
	"encoding/xml"
	"image/color"
	"io"
	"math"
	"strings"
	"testing"
)

// at returns a pixel of a drawing of 20 by 20 on white.
func at(t *testing.T, x, y int, shapes ...Shape) color.RGBA {
	t.Helper()
	d := Drawing{Width: 20, Height: 20, Ground: "#ffffff", Shapes: shapes, Patterns: []Pattern{
		{Name: "lines", Kind: Lines, Pitch: 10, Thick: 4, Y: 2, One: "#000000"},
		{Name: "bands", Kind: Bands, Pitch: 10, Thick: 5, One: "#ff0000", Two: "#0000ff"},
		{Name: "dots", Kind: Dots, Pitch: 10, Thick: 3, One: "#000000"},
	}}
	picture, err := d.Picture(1)
	if err != nil {
		t.Fatal(err)
	}
	return picture.RGBAAt(x, y)
}

var (
	white = color.RGBA{255, 255, 255, 255}
	black = color.RGBA{0, 0, 0, 255}
	red   = color.RGBA{255, 0, 0, 255}
	blue  = color.RGBA{0, 0, 255, 255}
	grey  = color.RGBA{51, 51, 51, 255} // black, four fifths opaque, on white: 255 / 5
)

// TestPixels: single pixels of shapes, worked out by hand.
func TestPixels(t *testing.T) {
	all := Shape{Kind: Rect, W: 20, H: 20}
	with := func(fill string) Shape { s := all; s.Fill = fill; return s }
	for _, c := range []struct {
		name  string
		x, y  int
		shape Shape
		want  color.RGBA
	}{
		{"a filled box", 5, 5, Shape{Kind: Rect, X: 4, Y: 4, W: 4, H: 4, Fill: "#ff0000"}, red},
		{"beside it", 8, 5, Shape{Kind: Rect, X: 4, Y: 4, W: 4, H: 4, Fill: "#ff0000"}, white},
		{"an edge", 4, 10, Shape{Kind: Rect, X: 4, Y: 4, W: 12, H: 12, Stroke: "#000000", Thick: 2}, black},
		{"within the edge", 10, 10, Shape{Kind: Rect, X: 4, Y: 4, W: 12, H: 12, Stroke: "#000000", Thick: 2}, white},
		{"the corner of an edge, to its point", 3, 3, Shape{Kind: Rect, X: 4, Y: 4, W: 12, H: 12, Stroke: "#000000", Thick: 2}, black},
		{"the corner of a round box", 0, 0, Shape{Kind: Rect, W: 20, H: 20, R: 8, Fill: "#000000"}, white},
		{"a disc", 10, 10, Shape{Kind: Circle, X: 10, Y: 10, R: 5, Fill: "#000000"}, black},
		{"a path with relative and absolute steps", 10, 10, Shape{Kind: Path, D: "M2 2h16v16H2z", Fill: "#0000ff"}, blue},
		{"a hole, the other way round", 10, 10, Shape{Kind: Path, D: "M0 0H20V20H0zM5 5V15H15V5z", Fill: "#0000ff"}, white},
		{"a circle of two arcs", 10, 10, Shape{Kind: Path, D: "M4 10a6 6 0 1 0 12 0a6 6 0 1 0 -12 0", Fill: "#000000"}, black},
		{"moved and scaled", 15, 15, Shape{Kind: Rect, W: 2, H: 2, Fill: "#ff0000", At: Move{X: 12, Y: 12, By: 3}}, red},
		{"a line of a pattern", 10, 3, with("lines"), grey},
		{"between lines", 10, 8, with("lines"), white},
		{"a first band", 1, 1, with("bands"), blue}, // (1.5+1.5)/√2 = 2.1, within the first 5 of 10
		{"a second band", 5, 5, with("bands"), red}, // 11/√2 = 7.8
		{"a dot", 5, 5, with("dots"), black},
		{"between dots", 10, 10, with("dots"), white},
		{"a path that cannot be read, up to there", 10, 10, Shape{Kind: Path, D: "M0 0H20V20H0z?", Fill: "#ff0000"}, red},
	} {
		if got := at(t, c.x, c.y, c.shape); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// TestMostPixels: a picture that would be too large is not made.
func TestMostPixels(t *testing.T) {
	side := math.Sqrt(MostPixels)
	for _, d := range []Drawing{{Width: side + 1, Height: side + 1}, {Width: 0, Height: 5}, {Width: -3, Height: 5}} {
		if err := d.PNG(io.Discard, 1); err == nil {
			t.Errorf("%g by %g is made", d.Width, d.Height)
		}
	}
	if err := (&Drawing{Width: 4, Height: 4}).PNG(&bytes.Buffer{}, 1); err != nil {
		t.Error(err)
	}
}

// TestSVG: whatever is written on it, the text of a drawing is XML, by encoding/xml.
func TestSVG(t *testing.T) {
	for _, say := range []string{"plain", `<a href="x">&amp;]]>`, "\x00\x08\xff\ufffe", "日本", strings.Repeat("x", 1000)} {
		d := Drawing{Width: 10, Height: 10, Title: say, Shapes: []Shape{{Kind: Text, Say: say, Size: 10, Weight: 500, Fill: "#000000"}, {Kind: Path, D: say, Stroke: "#000000", Thick: 1}}}
		for _, style := range []SVGStyle{{}, {Outline: true}, {Inside: true, Scales: true, ID: "a"}} {
			text := d.SVG(style)
			decoder := xml.NewDecoder(strings.NewReader(text))
			for {
				_, err := decoder.Token()
				if err == io.EOF {
					break
				}
				if err != nil {
					t.Errorf("%q, %+v: %v", say, style, err)
					break
				}
			}
			if outlined := !strings.Contains(text, "<text"); style.Outline && Legible(say) != outlined {
				t.Errorf("%q: outlined %v", say, outlined)
			}
		}
	}
}

// TestWidth: two letters are as wide as each alone, and figures are of one width.
func TestWidth(t *testing.T) {
	a, b := Width("a", 20, 500), Width("Ł", 20, 500)
	if a <= 0 || b <= 0 || math.Abs(Width("aŁ", 20, 500)-a-b) > 1e-9 || Width("a", 20, 400) != a || Width("a", 20, 900) != Width("a", 20, 700) {
		t.Errorf("a %g, Ł %g", a, b)
	}
	if Legible("日") || !Legible("Tveiterås 12…Łx") {
		t.Error("what the type has is not known")
	}
}
