package recap

import (
	"fmt"
	"html/template"
	"path"
	"strings"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/tellline"
)

// indexPage is what the page over all games is filled with.
type indexPage struct {
	In      *Words
	CSS     template.CSS
	Sheet   template.HTML
	Title   string
	When    string
	Match   string
	Longest string
	Said    string
	Games   []indexRow
	Made    string
	Legend  []legend
	Beside  []besideRow
}

// besideRow is a file for the editing program.
type besideRow struct{ Name, Kind string }

type indexRow struct {
	Page, PGN, Board string
	White, Black     string
	WhiteMore        string // title, rating
	BlackMore        string
	Score, Result    string
	Line             template.HTML
	Facts            []indexFact
}

type indexFact struct {
	Head  string
	Value string
	Move  template.HTML
}

// rowWide is how wide a tell line is in the list of games.
const rowWide = 640.0

func (r *recap) indexOf() indexPage {
	in := r.in
	p := indexPage{In: in, Title: r.show.Title, When: in.date(r.show.Began.UTC().Format("2006.01.02")), Made: r.made(), Sheet: figurineSheet()}
	if r.show.Match != nil {
		p.Match = r.show.Match.Line
	}
	said := 0
	for _, e := range r.entries {
		said += len(e.Said)
		p.Games = append(p.Games, r.rowOf(e))
	}
	switch said {
	case 0:
	case 1:
		p.Said = in.SaidOne
	default:
		p.Said = fill(in.SaidCount, said)
	}
	p.Longest = r.longestOfDay()
	p.Legend = r.legendOfAll()
	p.Beside = r.besideRows()
	p.CSS = styleOf(fmt.Sprint(p.Title, p.Games, p.Longest))
	return p
}

// besideRows names the files for the editing program, each with what it is.
func (r *recap) besideRows() []besideRow {
	var out []besideRow
	for _, name := range r.beside {
		kind := map[string]string{".vtt": r.in.Chapters, ".csv": r.in.CueList, ".edl": r.in.CutList}[path.Ext(name)]
		out = append(out, besideRow{name, kind})
	}
	return out
}

// legendOfAll explains the looks that any of the games has.
func (r *recap) legendOfAll() []legend {
	var out []legend
	have := make(map[string]bool)
	for _, e := range r.entries {
		for _, l := range legendOf(e.Game, r.in) {
			if !have[l.Word] {
				have[l.Word] = true
				out = append(out, l)
			}
		}
	}
	return out
}

// longestOfDay tells the longest think of the show; "" where no time is known.
func (r *recap) longestOfDay() string {
	var most time.Duration
	text := ""
	for _, e := range r.entries {
		for _, side := range []clock.Side{clock.White, clock.Black} {
			i := e.longest(side)
			if i < 0 || e.Board.Plies[i].Timed.Spent <= most {
				continue
			}
			most = e.Board.Plies[i].Timed.Spent
			text = fill(r.in.LongestOfDay, clock.Format(most), e.Board.Called(side), e.spell(r.in, i), e.Board.Number)
		}
	}
	return text
}

func (r *recap) rowOf(e *entry) indexRow {
	b, in := e.Board, r.in
	row := indexRow{
		Page: e.name + ".html", PGN: e.name + ".pgn", Board: fill(in.Board, b.Number), Score: score(b.Result), Result: in.resultWords(b),
		White: b.Called(clock.White), Black: b.Called(clock.Black),
	}
	more := func(side clock.Side) string {
		p := b.Players[side]
		words := strings.TrimSpace(p.Title + " " + p.Federation)
		if p.Rating > 0 {
			words = strings.TrimSpace(fmt.Sprintf("%s %d", words, p.Rating))
		}
		return words
	}
	row.WhiteMore, row.BlackMore = more(clock.White), more(clock.Black)
	style := tellline.Style{Size: tellline.Panel, Width: rowWide, Palette: tellline.Paper, Fills: true}
	line := tellline.Draw(lineGame(e.Game, in), style)
	line.Title = in.LineTitle
	row.Line = inside(&line.Drawing, e.name+"r")
	row.Facts = r.rowFacts(e)
	return row
}

// rowFacts tells of a game what can be compared with the others.
func (r *recap) rowFacts(e *entry) []indexFact {
	var out []indexFact
	in := r.in
	if e.timed() {
		var used [2]string
		for side := range used {
			sum, _, _ := e.used(clock.Side(side), 0, len(e.Board.Plies)+e.Board.HalfMove(0))
			used[side] = clock.Format(sum)
		}
		out = append(out, indexFact{Head: in.Used, Value: used[0] + " / " + used[1]})
	}
	best := -1
	for _, side := range []clock.Side{clock.White, clock.Black} {
		if i := e.longest(side); i >= 0 && (best < 0 || e.Board.Plies[i].Timed.Spent > e.Board.Plies[best].Timed.Spent) {
			best = i
		}
	}
	if best >= 0 {
		out = append(out, indexFact{Head: in.Longest, Value: clock.Format(e.Board.Plies[best].Timed.Spent), Move: r.moveHTML(e.Board.HalfMove(best), e.Board.Plies[best].SAN, true)})
	}
	if i := e.novelty(); i >= 0 {
		out = append(out, indexFact{Head: in.Novelty, Move: r.moveHTML(e.Board.HalfMove(i), e.Board.Plies[i].SAN, true)})
	}
	return append(out, indexFact{Head: in.Prompts, Value: fmt.Sprint(len(e.Said))})
}

// hidden takes a drawing out of what is read aloud: a word beside it says the same.
func hidden(svg string) template.HTML {
	return template.HTML(strings.Replace(svg, ` role="img" aria-label=""`, ` aria-hidden="true"`, 1))
}
