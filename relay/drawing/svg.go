package drawing

import (
	"fmt"
	"html"
	"strconv"
	"strings"
	"unicode"
)

// SVGStyle says how a drawing is written as SVG.
type SVGStyle struct {
	ID      string // before the names of its patterns, which must be alone of their kind on a page
	Inside  bool   // part of a page of HTML: no XML namespace is declared, and the page has its type
	Outline bool   // texts are drawn as their outlines, so that no type is needed to see them
	Scales  bool   // as wide as its place on the page, whatever Width says
}

// SVG returns the drawing as an element svg. It refers to nothing outside of itself.
func (d *Drawing) SVG(style SVGStyle) string {
	var out strings.Builder
	w, h := number(d.Width), number(d.Height)
	out.WriteString("<svg")
	if !style.Inside {
		out.WriteString(` xmlns="http://www.w3.org/2000/svg"`)
	}
	if !style.Scales {
		fmt.Fprintf(&out, ` width="%s" height="%s"`, w, h)
	}
	fmt.Fprintf(&out, ` viewBox="0 0 %s %s" role="img" aria-label="%s">`, w, h, escaped(d.Title))
	if len(d.Patterns) > 0 {
		out.WriteString("<defs>")
		for _, p := range d.Patterns {
			p.svg(&out, style.ID)
		}
		out.WriteString("</defs>")
	}
	if d.Ground != "" {
		fmt.Fprintf(&out, `<rect width="%s" height="%s" fill="%s"/>`, w, h, d.Ground)
	}
	for i := range d.Shapes {
		d.Shapes[i].svg(&out, d, style)
	}
	out.WriteString("</svg>")
	return out.String()
}

func (s *Shape) svg(out *strings.Builder, d *Drawing, style SVGStyle) {
	more := s.paint(d, style)
	switch s.Kind {
	case Rect:
		round := ""
		if s.R > 0 {
			round = ` rx="` + number(s.R) + `"`
		}
		fmt.Fprintf(out, `<rect x="%s" y="%s" width="%s" height="%s"%s%s/>`, number(s.X), number(s.Y), number(s.W), number(s.H), round, more)
	case Path:
		fmt.Fprintf(out, `<path d="%s"%s/>`, escaped(s.D), more)
	case Circle:
		fmt.Fprintf(out, `<circle cx="%s" cy="%s" r="%s"%s/>`, number(s.X), number(s.Y), number(s.R), more)
	case Text:
		s.textSVG(out, more, style)
	}
}

func (s *Shape) textSVG(out *strings.Builder, more string, style SVGStyle) {
	if style.Outline {
		if d, ok := glyphs(s); ok {
			fmt.Fprintf(out, `<path d="%s"%s/>`, d, more)
			return
		}
	}
	anchor := ""
	if s.Anchor != "" {
		anchor = ` text-anchor="` + string(s.Anchor) + `"`
	}
	fmt.Fprintf(out, `<text x="%s" y="%s" font-size="%s" font-weight="%d"%s%s>%s</text>`,
		number(s.X), number(s.Y), number(s.Size), s.Weight, anchor, more, escaped(s.Say))
}

// paint returns the attributes of colour, line and place.
func (s *Shape) paint(d *Drawing, style SVGStyle) string {
	var out strings.Builder
	switch {
	case s.Fill == "":
		out.WriteString(` fill="none"`)
	case d.pattern(s.Fill) != nil:
		fmt.Fprintf(&out, ` fill="url(#%s)"`, style.ID+s.Fill)
	default:
		fmt.Fprintf(&out, ` fill="%s"`, s.Fill)
	}
	if s.Stroke != "" {
		fmt.Fprintf(&out, ` stroke="%s" stroke-width="%s"`, s.Stroke, number(s.Thick))
		if s.Round {
			out.WriteString(` stroke-linejoin="round" stroke-linecap="round"`)
		}
	}
	if s.Opacity > 0 && s.Opacity < 1 {
		fmt.Fprintf(&out, ` opacity="%s"`, number(s.Opacity))
	}
	if s.At != (Move{}) && s.At != (Move{By: 1}) {
		fmt.Fprintf(&out, ` transform="translate(%s %s) scale(%s)"`, number(s.At.X), number(s.At.Y), number(s.At.scale()))
	}
	return out.String()
}

func (d *Drawing) pattern(name string) *Pattern {
	for i := range d.Patterns {
		if d.Patterns[i].Name == name {
			return &d.Patterns[i]
		}
	}
	return nil
}

func (p *Pattern) svg(out *strings.Builder, id string) {
	pitch, thick := number(p.Pitch), number(p.Thick)
	name := id + p.Name
	switch p.Kind {
	case Lines:
		fmt.Fprintf(out, `<pattern id="%s" patternUnits="userSpaceOnUse" width="64" height="%s" y="%s"><rect width="64" height="%s" fill="%s" opacity="%s"/></pattern>`,
			name, pitch, number(p.Y), thick, p.One, number(linesOpacity))
	case Bands:
		fmt.Fprintf(out, `<pattern id="%s" patternUnits="userSpaceOnUse" width="%s" height="%s" patternTransform="rotate(45)"><rect width="%s" height="%s" fill="%s"/><rect width="%s" height="%s" fill="%s"/></pattern>`,
			name, pitch, pitch, pitch, pitch, p.One, thick, pitch, p.Two)
	case Dots:
		fmt.Fprintf(out, `<pattern id="%s" patternUnits="userSpaceOnUse" width="%s" height="%s" y="%s"><circle cx="%s" cy="%s" r="%s" fill="%s"/></pattern>`,
			name, pitch, pitch, number(p.Y), number(p.Pitch/2), number(p.Pitch/2), thick, p.One)
	}
}

// linesOpacity lets the ground shine through speed lines a little.
const linesOpacity = 0.8

// number writes a length as short as a hundredth of a pixel allows.
func number(x float64) string {
	text := strconv.FormatFloat(x, 'f', 2, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

// escaped returns a text as XML can hold it: what no XML can hold is left out.
func escaped(text string) string {
	return html.EscapeString(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == 0xfffe || r == 0xffff {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\ufffd")))
}
