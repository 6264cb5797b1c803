package drawing

import (
	"fmt"
	"strings"
	"sync"

	"github.com/tdewolff/font"

	"clocktell/static"
)

// weights of the type that drawings are set in; others are set in the next heavier one.
var weights = []int{500, 600, 700}

// faces are the files of the type, by weight: the usual letters first, those of the rest of
// Europe behind them.
var faces = sync.OnceValue(func() map[int][]*font.SFNT {
	out := make(map[int][]*font.SFNT)
	for _, weight := range weights {
		for _, part := range []string{"latin", "latin-ext"} {
			text, err := static.FS.ReadFile(fmt.Sprintf("fonts/barlow-semi-condensed-%s-%d-normal.woff2", part, weight))
			if err == nil {
				text, err = font.ToSFNT(text)
			}
			var face *font.SFNT
			if err == nil {
				face, err = font.ParseSFNT(text, 0)
			}
			if err != nil {
				panic(fmt.Errorf("the type that is built in: %w", err)) // a fault of the build
			}
			out[weight] = append(out[weight], face)
		}
	}
	return out
})

func facesOf(weight int) []*font.SFNT {
	for _, w := range weights {
		if weight <= w {
			return faces()[w]
		}
	}
	return faces()[weights[len(weights)-1]]
}

// Legible reports whether the type has every letter of a text.
func Legible(text string) bool {
	for _, r := range text {
		if face, _ := glyphOf(facesOf(500), r); face == nil {
			return false
		}
	}
	return true
}

func glyphOf(faces []*font.SFNT, r rune) (*font.SFNT, uint16) {
	for _, face := range faces {
		if id := face.GlyphIndex(r); id != 0 {
			return face, id
		}
	}
	return nil, 0
}

// Width returns how wide a text is when it is drawn.
func Width(text string, size float64, weight int) float64 {
	sum := 0.0
	for _, r := range text {
		if face, id := glyphOf(facesOf(weight), r); face != nil {
			sum += size * float64(face.GlyphAdvance(id)) / float64(face.Head.UnitsPerEm)
		}
	}
	return sum
}

// glyphs returns a text as the d of a path; false where the type lacks a letter of it.
func glyphs(s *Shape) (string, bool) {
	x := s.X
	switch s.Anchor {
	case Middle:
		x -= Width(s.Say, s.Size, s.Weight) / 2
	case End:
		x -= Width(s.Say, s.Size, s.Weight)
	}
	pen, whole := &glyphPen{}, true
	for _, r := range s.Say {
		face, id := glyphOf(facesOf(s.Weight), r)
		if face == nil {
			whole = false
			continue
		}
		scale := s.Size / float64(face.Head.UnitsPerEm)
		if err := face.GlyphPath(pen, id, 0, x, -s.Y, scale, font.NoHinting); err != nil {
			whole = false
		}
		x += scale * float64(face.GlyphAdvance(id))
	}
	return pen.String(), whole
}

// glyphPen writes outlines of letters, whose heights grow upwards, as the d of a path.
type glyphPen struct{ strings.Builder }

func (p *glyphPen) write(command byte, v ...float64) {
	p.WriteByte(command)
	for i, x := range v {
		if i%2 == 1 {
			x = -x
		}
		if i > 0 {
			p.WriteByte(' ')
		}
		p.WriteString(number(x))
	}
}

func (p *glyphPen) MoveTo(x, y float64)             { p.write('M', x, y) }
func (p *glyphPen) LineTo(x, y float64)             { p.write('L', x, y) }
func (p *glyphPen) QuadTo(cx, cy, x, y float64)     { p.write('Q', cx, cy, x, y) }
func (p *glyphPen) CubeTo(a, b, c, d, x, y float64) { p.write('C', a, b, c, d, x, y) }
func (p *glyphPen) Close()                          { p.WriteByte('Z') }
