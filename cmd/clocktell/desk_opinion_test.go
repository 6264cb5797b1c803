package main

import (
	"context"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"

	"clocktell/relay"
	"clocktell/relay/opinion"
)

// thought is a line of an engine: its score from White's view, and its moves.
type thought struct {
	centipawns int
	moves      string
}

// judge lets an engine say what it thinks of the position that an opinion is wanted on
// first, and waits until the show has it.
func (s *deskShow) judge(depth int, lines ...thought) {
	s.t.Helper()
	if s.st.relay.Show().Engine.Name == "" {
		s.st.heard <- relay.EngineChanged{At: s.st.time.Now(), Engine: relay.Engine{Name: "Sounding 3"}}
	}
	show := s.st.relay.Show()
	want := show.Wanted()[0]
	from, moves, ok := show.Course(want)
	if !ok {
		s.t.Fatalf("no course to %+v", want)
	}
	for _, m := range moves {
		from.Make(m)
	}
	said := opinion.Opinion{Engine: "Sounding 3", Depth: depth}
	for _, l := range lines {
		place := from
		line := opinion.Line{Score: opinion.Score{Centipawns: l.centipawns}, Depth: depth, Chances: &opinion.Chances{Win: 312, Draw: 610, Loss: 78}}
		for _, san := range strings.Fields(l.moves) {
			move, err := place.ParseSAN(san)
			if err != nil {
				s.t.Fatalf("%s in %s: %v", san, place.FEN(), err)
			}
			place.Make(move)
			line.Moves = append(line.Moves, move)
		}
		said.Lines = append(said.Lines, line)
	}
	s.st.heard <- relay.EngineAnswered{At: s.st.time.Now(), Board: want.Board, Game: want.Game, Answers: []relay.Judged{{Ply: want.Ply, Place: want.Place, Opinion: said}}}
	waitShow(s.t, s.st, func(show *relay.Show) bool {
		o := show.OpinionAtDesk()
		return o != nil && o.Depth == depth
	})
}

// TestDeskOpinion: a line of the engine is opened on the desk's board by one click and by
// keyboard, is a side line like any other, goes on the air and off, and is taken back as a
// whole. Folded away, the opinion stays away.
func TestDeskOpinion(t *testing.T) {
	ctx := browser(t)
	s := startDesk(t, "e4 e5")
	visit(t, ctx, "about:blank")
	desk, scene := s.desk(ctx, "Runa"), s.tab(ctx, "/scene/board?board=air&motion=off")
	waitFor(t, desk, "no opinion without an engine", "document.querySelector('#opinion').hidden")
	s.judge(18, thought{134, "Nf3 Nc6 Bb5 a6 Ba4"}, thought{31, "f4 exf4 Bc4 d6"}, thought{-12, "Nc3 Nf6"})
	waitFor(t, desk, "three lines", "document.querySelectorAll('.opinion-line:not([data-empty])').length === 3")
	waitFor(t, desk, "the verdict in words", "document.querySelector('.opinion-words').textContent === 'White is better, by a pawn and a half'")
	page(t, desk, "the second move of the second line", chromedp.Click(".opinion-line:nth-child(2) .opinion-move:nth-child(2)"))
	s.shows(desk, "the line as far as that", after("e4 e5 f4 exf4"))
	s.shows(scene, "nothing of it", after("e4 e5"))
	waitFor(t, desk, "the whole line", "document.querySelectorAll('#lines .line-move').length === 4")
	s.keys(desk, "a")
	s.shows(scene, "the line on the air", after("e4 e5 f4 exf4"))
	s.keys(desk, "o", "z")
	s.shows(scene, "the live board", after("e4 e5"))
	s.shows(desk, "the line taken back", after("e4 e5"))
	waitFor(t, desk, "no side line", "document.querySelectorAll('#lines .line-move').length === 0")
	s.opinionByKeyboard(desk)
	s.opinionUnderAHand(ctx, desk)
	s.verdictOnAir(desk, scene)
}

// opinionUnderAHand lets the engine change its mind while the mouse is over its lines: they
// stay for whoever is about to press one, while another desk has the new ones, and change once the mouse rests.
func (s *deskShow) opinionUnderAHand(ctx, desk context.Context) {
	s.t.Helper()
	const first = "document.querySelector('.opinion-line:not([data-empty]) .opinion-move .move')?.getAttribute('aria-label')"
	other := s.desk(ctx, "Ada")
	waitFor(s.t, other, "the lines at the other desk", first+" === 'Nf3'")
	at := evaluate[[]float64](s.t, desk, `(() => { const b = document.querySelector('.opinion-line').getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; })()`)
	page(s.t, desk, "the mouse over the lines", chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, at[0], at[1]))
	s.judge(20, thought{134, "Nc3 Nf6 f4"}, thought{31, "Nf3 Nc6"})
	waitFor(s.t, other, "the new lines at the other desk", first+" === 'Nc3'")
	if is := evaluate[string](s.t, desk, first); is != "Nf3" {
		s.t.Errorf("under the mouse the first move has become %q", is)
	}
	waitFor(s.t, desk, "the new lines once the mouse rests", first+" === 'Nc3'")
}

func (s *deskShow) opinionByKeyboard(desk context.Context) {
	s.t.Helper()
	waitFor(s.t, desk, "the lines again", "document.querySelectorAll('.opinion-line:not([data-empty])').length === 3")
	s.keys(desk, "s")
	waitFor(s.t, desk, "the first line has the focus", "document.activeElement?.matches('.opinion-line:first-child .opinion-score')")
	s.keys(desk, "ArrowDown", "ArrowRight", "Enter")
	s.shows(desk, "the second line's first move", after("e4 e5 f4"))
	waitFor(s.t, desk, "that it looks at the new position", "/Looking/.test(document.querySelector('.opinion-words').textContent)")
	s.judge(9, thought{20, "exf4 Nf3"})
	waitFor(s.t, desk, "its line", "document.querySelector('.opinion-line:not([data-empty]) .opinion-move .move')?.getAttribute('aria-label') === 'exf4'")
	s.keys(desk, "ArrowRight") // through the line, not along the list
	s.shows(desk, "the second line's second move", after("e4 e5 f4 exf4"))
	s.keys(desk, "z")
	s.shows(desk, "the line taken back", after("e4 e5"))
	s.keys(desk, "s")
	if !evaluate[bool](s.t, desk, "document.querySelector('#opinion-body').hidden") {
		s.keys(desk, "s")
	}
	waitFor(s.t, desk, "the opinion folded", "document.querySelector('#opinion-body').hidden")
	page(s.t, desk, "loading again", chromedp.Reload())
	waitFor(s.t, desk, "the opinion still folded", "!document.querySelector('#opinion').hidden && document.querySelector('#opinion-body').hidden")
	waitFor(s.t, desk, "the table of actions", "document.querySelector('#air-action .air-word').textContent !== ''")
	s.keys(desk, "s")
	waitFor(s.t, desk, "the lines again", "document.querySelectorAll('.opinion-line:not([data-empty])').length === 3")
}

func (s *deskShow) verdictOnAir(desk, scene context.Context) {
	s.t.Helper()
	waitFor(s.t, scene, "no lean", "document.querySelector('#lean')?.dataset.shown !== 'true'")
	s.keys(desk, "v", "V")
	waitFor(s.t, scene, "the lean", "document.querySelector('#lean').dataset.shown === 'true' && document.querySelector('#lean').textContent === 'Engine: White better'")
	waitShow(s.t, s.st, func(s *relay.Show) bool { return s.OnAir.Caption != nil && s.OnAir.Caption.By == "Runa" })
	s.goOn("Nf3")
	waitFor(s.t, scene, "no lean after the move", "document.querySelector('#lean').dataset.shown !== 'true'")
}
