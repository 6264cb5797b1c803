package recap

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"clocktell/relay/clock"
	"clocktell/relay/desk"
	"clocktell/relay/diagram"
	"clocktell/relay/drawing"
)

// figurineSheet holds the figurines once; moves refer to them.
func figurineSheet() template.HTML {
	var out strings.Builder
	out.WriteString(`<svg class="sheet" aria-hidden="true" width="0" height="0">`)
	for _, letter := range "KQRBN" {
		span := diagram.Figurine[byte(letter)]
		d := drawing.Drawing{Width: 100, Height: 100, Shapes: diagram.Outlines(byte(letter), "currentColor", "#ffffff")}
		inner := d.SVG(drawing.SVGStyle{Inside: true, Scales: true})
		inner = inner[strings.Index(inner, ">")+1 : strings.LastIndex(inner, "<")]
		fmt.Fprintf(&out, `<symbol id="man-%c" viewBox="%g 6 %g 85">%s</symbol>`, letter, span[0], span[1]-span[0], inner)
	}
	out.WriteString("</svg>")
	return template.HTML(out.String())
}

// sanHTML writes a move with figurines; readers of the screen hear the letter.
func (r *recap) sanHTML(san string) string {
	var out strings.Builder
	for _, c := range san {
		span, isMan := diagram.Figurine[byte(min(c, 127))]
		switch {
		case isMan && c != 'P':
			fmt.Fprintf(&out, `<svg class="man" viewBox="0 0 %g 85" aria-hidden="true"><use href="#man-%c"/></svg><span class="unseen">%s</span>`,
				span[1]-span[0], c, r.in.san(string(c)))
		case c == 'x':
			out.WriteString("×")
		default:
			out.WriteString(template.HTMLEscapeString(string(c)))
		}
	}
	return out.String()
}

// moveHTML writes a move; with its number if it is White's or number is asked for.
func (r *recap) moveHTML(halfMove int, san string, number bool) template.HTML {
	text := ""
	if number || halfMove%2 == 1 {
		text = `<span class="no">` + dotted(halfMove) + `</span>`
	}
	return template.HTML(`<span class="mv">` + text + r.sanHTML(san) + `</span>`)
}

// stepsHTML writes a side line.
func (r *recap) stepsHTML(moves []desk.Step) template.HTML {
	var out []string
	for i, m := range moves {
		out = append(out, string(r.moveHTML(m.Number, m.SAN, i == 0)))
	}
	return template.HTML(strings.Join(out, " "))
}

// fillHTML puts what is HTML already where {} stands in a text that is not.
func fillHTML(text string, part template.HTML) template.HTML {
	return template.HTML(strings.Replace(template.HTMLEscapeString(text), "{}", string(part), 1))
}

// movesHTML writes the moves as prose, broken where a side line or a question was shown.
func (r *recap) movesHTML(g *Game) template.HTML {
	b, from := g.Board, tellFrom(g.Board)
	var out strings.Builder
	open, number := false, true
	for i := range b.Plies {
		ply := &b.Plies[i]
		if !open {
			out.WriteString(`<p class="moves">`)
			open = true
		}
		move := string(r.moveHTML(b.HalfMove(i), ply.SAN, number))
		number = false
		if t := &ply.Timed; t.SpentQuality != clock.QualityNone && t.Spent >= from {
			move = fmt.Sprintf(`<span class="mv">%s <span class="chip">%s</span></span>`, move, clock.Format(t.Spent))
		}
		out.WriteString(move)
		out.WriteByte(' ')
		if notes := r.notesAfter(g, i+1); notes != "" {
			out.WriteString("</p>" + notes)
			open, number = false, true
		}
	}
	if !open {
		out.WriteString(`<p class="moves">`)
	}
	fmt.Fprintf(&out, `<strong class="score">%s</strong></p>`, score(b.Result))
	return template.HTML(out.String())
}

// notesAfter writes the side lines and questions that viewers saw after so many plies.
func (r *recap) notesAfter(g *Game, plies int) string {
	var out strings.Builder
	note := func(head string, moves template.HTML) {
		fmt.Fprintf(&out, `<p class="note"><bdi class="note-head">%s</bdi> %s</p>`, template.HTMLEscapeString(head), moves)
	}
	for _, l := range g.Lines {
		if l.Ply == plies {
			head := r.in.ShownAfter
			if l.Name != "" {
				head = l.Name
			}
			note(head+":", r.stepsHTML(l.Moves))
		}
	}
	for _, c := range g.Asked {
		if c.Place.Ply == plies && c.Place.Move == 0 {
			note(r.in.Question+":", template.HTML(template.HTMLEscapeString(c.Question)))
		}
	}
	return out.String()
}

func (r *recap) saidViews(g *Game) []saidView {
	said := slices.Clone(g.Said)
	slices.SortStableFunc(said, func(a, b Said) int { return a.At.Compare(b.At) })
	var out []saidView
	for _, s := range said {
		v := saidView{Text: s.Text, By: s.By, OnAir: s.OnAir}
		if spent, known := g.gameTime(s.Plies); known {
			v.Time = clock.Format(spent)
		}
		if n := min(s.Plies, len(g.Board.Plies)); n > 0 {
			v.Move = r.moveHTML(g.Board.HalfMove(n-1), g.Board.Plies[n-1].SAN, true)
		}
		out = append(out, v)
	}
	return out
}

func (r *recap) lineViews(g *Game) []lineView {
	var out []lineView
	for _, l := range g.Lines {
		out = append(out, lineView{After: r.after(g, l.Ply), Moves: r.stepsHTML(l.Moves), Name: l.Name})
	}
	return out
}

// after tells after which move something was.
func (r *recap) after(g *Game, plies int) template.HTML {
	if plies < 1 || plies > len(g.Board.Plies) {
		return template.HTML(template.HTMLEscapeString(r.in.Start))
	}
	return fillHTML(r.in.After, r.moveHTML(g.Board.HalfMove(plies-1), g.Board.Plies[plies-1].SAN, true))
}

func (r *recap) askedViews(g *Game) []askedView {
	var out []askedView
	for _, c := range g.Asked {
		v := askedView{Move: r.after(g, c.Place.Ply), Question: c.Question, Seconds: fill(r.in.Seconds, int(c.For.Seconds())), Hints: c.Hints[:min(c.Given, len(c.Hints))]}
		if len(c.Answer) > 0 {
			v.Answer = r.stepsHTML(c.Answer)
		}
		out = append(out, v)
	}
	return out
}

// barMost is how much of its column the longest bar takes, in per cent.
const barMost = 88

// clockRows tells for each ten moves what each side used, and had left.
func (r *recap) clockRows(g *Game) []clockRow {
	if !g.timed() {
		return nil
	}
	var out []clockRow
	var most float64
	for _, from := range g.phases() {
		for _, side := range []clock.Side{clock.White, clock.Black} {
			sum, _, _ := g.used(side, from, from+phaseMoves)
			most = max(most, sum.Seconds())
		}
	}
	row := func(name string, from, to int, total bool) {
		c := clockRow{Range: name, Total: total}
		for _, side := range []clock.Side{clock.White, clock.Black} {
			sum, moves, left := g.used(side, from, to)
			if moves == 0 {
				continue
			}
			c.Sides[side] = clockCell{Used: clock.Format(sum), Left: left, Share: template.CSS(fmt.Sprintf("%.1f%%", barMost*sum.Seconds()/max(most, 1)))}
		}
		out = append(out, c)
	}
	last, _ := g.Board.MoveNumber(len(g.Board.Plies) - 1)
	for _, from := range g.phases() {
		row(fill(r.in.Range, from, min(from+phaseMoves-1, last)), from, from+phaseMoves, false)
	}
	row(r.in.All, 0, last+1, true)
	return out
}
