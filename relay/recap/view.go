package recap

import (
	"cmp"
	"fmt"
	"html/template"
	"slices"
	"strings"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/diagram"
	"clocktell/relay/drawing"
)

// pageOf works out the page of a game.
func (r *recap) pageOf(e *entry) gamePage {
	g, in, b := e.Game, r.in, e.Board
	p := gamePage{
		In: in, Title: e.title(in), Show: r.show.Title, White: b.Called(clock.White), Black: b.Called(clock.Black), Score: score(b.Result), Result: in.resultWords(b),
		Players: r.players(g), Timed: g.timed(), Fault: b.Fault, Empty: len(b.Plies) == 0, PGN: e.name + ".pgn", Made: r.made(), Home: "index.html",
	}
	p.Where = r.where(e)
	p.Facts, p.Lede = r.facts(g), lede(g, in)
	badges := e.badges()
	p.Wide = inside(drawLine(g, in, badges, false), e.name+"w")
	p.Narrow = inside(drawLine(g, in, badges, true), e.name+"n")
	p.Legend, p.Doubts = legendOf(g, in), doubtsOf(g, in)
	for i := range e.moments {
		p.Moments = append(p.Moments, r.momentView(e, i))
	}
	p.Said, p.Lines, p.Asked = r.saidViews(g), r.lineViews(g), r.askedViews(g)
	p.MovesHed = in.MovesPlain
	if p.Timed {
		p.MovesHed = fill(in.MovesTitle, clock.Format(tellFrom(b)))
	}
	p.Moves = r.movesHTML(g)
	p.Clocks = r.clockRows(g)
	all := fmt.Sprint(p.White, p.Black, p.Show, p.Where, p.Players, p.Said, p.Moments, p.Facts)
	p.CSS, p.Sheet = styleOf(all), figurineSheet()
	return p
}

// inside writes a drawing into a page.
func inside(d *drawing.Drawing, id string) template.HTML {
	return template.HTML(d.SVG(drawing.SVGStyle{ID: id + "-", Inside: true, Scales: true})) //nolint: its texts are escaped
}

// where tells event, date, round, board and time control.
func (r *recap) where(e *entry) []string {
	b, in := e.Board, r.in
	tag := func(name string) string {
		if told := b.Told(); told != nil {
			return strings.Trim(told.Tag(name), "?- ")
		}
		return ""
	}
	var out []string
	add := func(text string) {
		if text != "" && !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	add(tag("Event"))
	add(tag("Site"))
	add(in.date(cmp.Or(tag("Date"), r.show.Began.UTC().Format("2006.01.02"))))
	if round := tag("Round"); round != "" {
		add(fill(in.Round, round))
	}
	add(fill(in.Board, b.Number))
	if b.Game > 0 || e.several {
		add(fill(in.Game, b.Game+1))
	}
	return out
}

// facts tells what else there is to say of a game in a few words.
func (r *recap) facts(g *Game) []string {
	b, in := g.Board, r.in
	var out []string
	if control := b.Control.String(); control != "" {
		out = append(out, fill(in.Control, control))
	}
	if name := strings.TrimSpace(b.Opening.Name); name != "" {
		if b.Opening.Code != "" {
			name += " (" + b.Opening.Code + ")"
		}
		out = append(out, name)
	}
	if n := len(b.Plies); n > 0 {
		last, _ := b.MoveNumber(n - 1)
		first, _ := b.MoveNumber(0)
		if moves := last - first + 1; moves == 1 {
			out = append(out, in.OneMove)
		} else {
			out = append(out, fill(in.Moves, moves))
		}
	}
	return out
}

func (r *recap) players(g *Game) []playerRow {
	var out []playerRow
	for _, side := range []clock.Side{clock.White, clock.Black} {
		p := g.Board.Players[side]
		row := playerRow{
			Black: side == clock.Black, Name: cmp.Or(p.Name, r.in.colour(side)), Title: p.Title, Federal: p.Federation, Rating: p.Rating,
			Left: leftAtEnd(g, r.in, side), Side: r.in.colour(side),
		}
		out = append(out, row)
	}
	return out
}

func (r *recap) momentView(e *entry, i int) momentView {
	m, b := &e.moments[i], e.Board
	v := momentView{Letter: letter(i), Text: m.Text, Besides: m.Besides, Name: fmt.Sprintf("%s/%s", e.name, letter(i))}
	if m.Plies == 0 {
		v.Move = template.HTML(template.HTMLEscapeString(r.in.Start))
	} else {
		v.Move = fillHTML(r.in.After, r.moveHTML(b.HalfMove(m.Plies-1), b.Plies[m.Plies-1].SAN, true))
		timed := &b.Plies[m.Plies-1].Timed
		if timed.SpentQuality != clock.QualityNone {
			v.Spent = fill(r.in.Spent, clock.Format(timed.Spent))
		}
	}
	if spent, known := e.gameTime(m.Plies); known {
		v.Time = clock.Format(spent)
	}
	v.White, v.Black = leftAfter(e.Game, clock.White, m.Plies), leftAfter(e.Game, clock.Black, m.Plies)
	v.Diagram = inside(e.diagram(i, r.in), v.Name)
	return v
}

// leftAfter is what a side's clock showed after so many plies; "" unknown.
func leftAfter(g *Game, side clock.Side, plies int) string {
	for i := min(plies, len(g.Board.Plies)) - 1; i >= 0; i-- {
		if _, mover := g.Board.MoveNumber(i); mover == side {
			if timed := &g.Board.Plies[i].Timed; timed.LeftQuality != clock.QualityNone {
				return clock.Format(timed.Left)
			}
			return ""
		}
	}
	if g.Board.Control.Known() && g.timed() {
		return clock.Format(g.Board.Control.First(side).Left)
	}
	return ""
}

func letter(i int) string { return string(rune('A' + i)) }

// diagram draws the position of a key moment.
func (e *entry) diagram(i int, in *Words) *drawing.Drawing {
	m := &e.moments[i]
	p := diagram.Position{FEN: e.Board.FENAfter(m.Plies), Title: fill(in.Diagram, letter(i))}
	if m.Plies > 0 {
		move := e.Board.Plies[m.Plies-1].Move
		p.From, p.To = move.S1().String(), move.S2().String()
		p.Title = fill(in.After, e.spell(in, m.Plies-1))
	}
	for _, mark := range m.Marks {
		p.Marks = append(p.Marks, diagram.Mark{Kind: string(mark.Kind), From: mark.From, To: mark.To})
	}
	for _, shown := range e.Marks {
		if shown.Plies == m.Plies {
			for _, mark := range shown.Marks {
				p.Marks = append(p.Marks, diagram.Mark{Kind: string(mark.Meaning), From: mark.From, To: mark.To})
			}
		}
	}
	return diagram.Draw(p)
}

func (r *recap) made() string {
	return fill(r.in.MadeBy, r.in.date(r.show.At.UTC().Format("2006.01.02"))+", "+r.show.At.UTC().Format(time.TimeOnly))
}
