package drawing

import (
	"embed"
	"fmt"
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// weights of the type that drawings are set in; others are set in the next heavier one.
var weights = []int{500, 600, 700}

// typeFiles are the pages' files of the type (static/fonts), unpacked: Go's own packages read no
// WOFF2. TestRecapInBrowser holds them to those.
//
//go:embed type
var typeFiles embed.FS

// face is one file of the type.
type face struct {
	*sfnt.Font
	units float64 // in one em
}

// faces are the files of the type, by weight: the usual letters first, those of the rest of
// Europe behind them.
var faces = sync.OnceValue(func() map[int][]face {
	out := make(map[int][]face)
	for _, weight := range weights {
		for _, part := range []string{"latin", "latin-ext"} {
			text, err := typeFiles.ReadFile(fmt.Sprintf("type/barlow-semi-condensed-%s-%d.ttf", part, weight))
			var f *sfnt.Font
			if err == nil {
				f, err = sfnt.Parse(text)
			}
			if err != nil {
				panic(fmt.Errorf("the type that is built in: %w", err)) // a fault of the build
			}
			out[weight] = append(out[weight], face{f, float64(f.UnitsPerEm())})
		}
	}
	return out
})

func facesOf(weight int) []face {
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
		if _, _, ok := glyphOf(facesOf(500), r); !ok {
			return false
		}
	}
	return true
}

func glyphOf(faces []face, r rune) (face, sfnt.GlyphIndex, bool) {
	for _, f := range faces {
		if id, err := f.GlyphIndex(nil, r); err == nil && id != 0 {
			return f, id, true
		}
	}
	return face{}, 0, false
}

// advance is how far a letter moves on the next one, in units of its em.
func (f face) advance(id sfnt.GlyphIndex) float64 {
	wide, err := f.GlyphAdvance(nil, id, fixed.I(int(f.units)), font.HintingNone)
	if err != nil {
		return 0
	}
	return float64(wide) / 64
}

// Width returns how wide a text is when it is drawn.
func Width(text string, size float64, weight int) float64 {
	sum := 0.0
	for _, r := range text {
		if f, id, ok := glyphOf(facesOf(weight), r); ok {
			sum += size * f.advance(id) / f.units
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
	var out strings.Builder
	whole := true
	for _, r := range s.Say {
		f, id, ok := glyphOf(facesOf(s.Weight), r)
		if !ok {
			whole = false
			continue
		}
		f.outline(&out, id, x, s.Y, s.Size/f.units)
		x += s.Size * f.advance(id) / f.units
	}
	return out.String(), whole
}

// commands of a path, and how many points each has.
var commands = map[sfnt.SegmentOp]struct {
	letter byte
	points int
}{sfnt.SegmentOpMoveTo: {'M', 1}, sfnt.SegmentOpLineTo: {'L', 1}, sfnt.SegmentOpQuadTo: {'Q', 2}, sfnt.SegmentOpCubeTo: {'C', 3}}

// outline writes a letter as the d of a path.
func (f face) outline(out *strings.Builder, id sfnt.GlyphIndex, x, y, scale float64) {
	segments, err := f.LoadGlyph(&sfnt.Buffer{}, id, fixed.I(int(f.units)), nil)
	if err != nil {
		return // it is left blank
	}
	for i, segment := range segments {
		c := commands[segment.Op]
		if segment.Op == sfnt.SegmentOpMoveTo && i > 0 {
			out.WriteByte('Z')
		}
		out.WriteByte(c.letter)
		for k := range c.points {
			if k > 0 {
				out.WriteByte(' ')
			}
			p := segment.Args[k]
			out.WriteString(number(x+scale*float64(p.X)/64) + " " + number(y+scale*float64(p.Y)/64))
		}
	}
	if len(segments) > 0 {
		out.WriteByte('Z')
	}
}
