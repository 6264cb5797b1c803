package recap

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"html/template"

	"clocktell/relay"
	"clocktell/relay/drawing"
)

// Sink takes files. A name is a path with slashes, of a few plain letters.
type Sink func(name string, content []byte) error

// ErrNoGames says that a show had no game to tell of.
var ErrNoGames = errors.New("the show has no games to write a recap of")

// scaleOf is how many pixels of a picture a pixel of a drawing has.
const (
	lineScale    = 2
	diagramScale = 1
)

//go:embed page.html index.html page.css
var files embed.FS

var templates = template.Must(template.ParseFS(files, "page.html", "index.html"))

// recap is what one writing of files needs.
type recap struct {
	in      *Words
	show    *relay.Show
	entries []*entry
	beside  []string // names of files that are not of one game
}

// entry is a game with what its files are called.
type entry struct {
	*Game
	name    string
	several bool // games on its board
	moments []Moment
}

// Write makes all files of a show and gives them to the sink, one after the other. Those
// beside are somebody else's, to which the page over all games points. The error is
// ErrNoGames where there is nothing to tell, or the sink's.
func (w *Watch) Write(to Sink, beside ...string) error {
	games := w.Games()
	if len(games) == 0 {
		return ErrNoGames
	}
	r := &recap{in: WordsOf(w.last.Language()), show: w.last, beside: beside}
	onBoard := make(map[int]int)
	for _, g := range games {
		onBoard[g.Board.Number]++
	}
	for _, g := range games {
		e := &entry{Game: g, several: onBoard[g.Board.Number] > 1, moments: g.Moments(r.in)}
		e.name = fmt.Sprintf("board%d", g.Board.Number)
		if e.several {
			e.name += fmt.Sprintf("-game%d", g.Board.Game+1)
		}
		r.entries = append(r.entries, e)
	}
	for _, e := range r.entries {
		if err := r.writeGame(e, to); err != nil {
			return err
		}
	}
	return r.writeAll(games, to)
}

// writeAll writes what is of all games.
func (r *recap) writeAll(games []*Game, to Sink) error {
	var all bytes.Buffer
	if err := WritePGN(&all, r.in, games...); err != nil {
		return err
	}
	if err := to("all.pgn", all.Bytes()); err != nil {
		return err
	}
	return r.page("index.html", r.indexOf(), to)
}

// writeGame writes the files of a game: its page, PGN and pictures.
func (r *recap) writeGame(e *entry, to Sink) error {
	if err := r.page(e.name+".html", r.pageOf(e), to); err != nil {
		return err
	}
	var text bytes.Buffer
	if err := WritePGN(&text, r.in, e.Game); err != nil {
		return err
	}
	if err := to(e.name+".pgn", text.Bytes()); err != nil {
		return err
	}
	if err := picture(e.name+"/tell-line", drawLine(e.Game, r.in, e.badges(), false), lineScale, to); err != nil {
		return err
	}
	for i := range e.moments {
		if err := picture(fmt.Sprintf("%s/%s", e.name, letter(i)), e.diagram(i, r.in), diagramScale, to); err != nil {
			return err
		}
	}
	return nil
}

// picture writes a drawing as SVG, in which letters are outlines, and as PNG.
func picture(name string, d *drawing.Drawing, scale float64, to Sink) error {
	d.Ground = "#ffffff"
	if err := to(name+".svg", []byte(d.SVG(drawing.SVGStyle{Outline: true})+"\n")); err != nil {
		return err
	}
	var out bytes.Buffer
	if err := d.PNG(&out, scale); err != nil {
		return err
	}
	return to(name+".png", out.Bytes())
}

func (r *recap) page(name string, with any, to Sink) error {
	var out bytes.Buffer
	template := "page.html"
	if name == "index.html" {
		template = name
	}
	if err := templates.ExecuteTemplate(&out, template, with); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return to(name, out.Bytes())
}

// badges are the letters of the key moments on the tell line.
func (e *entry) badges() []badgeAt {
	var out []badgeAt
	for i, m := range e.moments {
		if m.Plies > 0 {
			out = append(out, badgeAt{letter(i), m.Plies - 1})
		}
	}
	return out
}

// pair is who plays, as they are called.
func (e *entry) pair() string {
	return fmt.Sprintf("%s – %s", e.Board.Called(0), e.Board.Called(1))
}

func (e *entry) title(in *Words) string {
	return fmt.Sprintf("%s %s, %s", e.pair(), score(e.Board.Result), fill(in.Board, e.Board.Number))
}
