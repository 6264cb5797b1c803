package main

import (
	"context"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"clocktell/relay"
)

// TestDeskExplains: a commentator steps back and shows a side line, nested, named and taken back,
// while the game goes on; viewers see nothing of it before it is put on the air, then each
// step, and the live game when it is off.
func TestDeskExplains(t *testing.T) {
	ctx := browser(t)
	s := startDesk(t, "e4 e5 Nf3 Nc6")
	visit(t, ctx, "about:blank")
	desk, scene := s.desk(ctx, "Runa"), s.tab(ctx, "/scene/board?board=air&motion=off")
	s.shows(scene, "the live board", after("e4 e5 Nf3 Nc6"))
	s.keys(desk, "ArrowLeft", "ArrowLeft")
	s.shows(desk, "two back", after("e4 e5"))
	s.drag(desk, "f2", "f4")
	s.shows(desk, "the side line", after("e4 e5 f4"))
	s.drag(desk, "f4", "e5") // not White's move any more
	waitFor(t, desk, "the reason", "/Black is on move/.test(document.querySelector('#notice').textContent) && !document.querySelector('#notice').hidden")
	s.shows(desk, "the man back", after("e4 e5 f4"))
	s.drag(desk, "e5", "f4")
	s.shows(desk, "the gambit taken", after("e4 e5 f4 exf4"))
	s.shows(scene, "nothing of it", after("e4 e5 Nf3 Nc6"))
	s.onTheAir(desk, scene)
	s.nested(desk, scene)
	s.taken(desk, scene)
}

// onTheAir puts the side line on the air while the game goes on by three plies.
func (s *deskShow) onTheAir(desk, scene context.Context) {
	s.t.Helper()
	s.keys(desk, "a")
	s.shows(scene, "the side line on the air", after("e4 e5 f4 exf4"))
	s.goOn("Bb5 a6 Ba4")
	waitFor(s.t, desk, "how far behind", "/behind/.test(document.querySelector('#ribbon').textContent + document.querySelector('#rail').textContent)")
	s.shows(scene, "the side line still", after("e4 e5 f4 exf4"))
	waitFor(s.t, scene, "the live clocks", "document.querySelector('.clock[data-text]') !== null")
}

// nested shows another answer in the side line, gives it a name, and takes it back.
func (s *deskShow) nested(desk, scene context.Context) {
	s.t.Helper()
	s.keys(desk, "ArrowLeft")
	s.shows(scene, "a step back", after("e4 e5 f4"))
	s.drag(desk, "d7", "d5")
	s.shows(scene, "the other answer", after("e4 e5 f4 d5"))
	waitFor(s.t, desk, "two branches", "document.querySelectorAll('#lines .branch').length === 2")
	s.keys(desk, "n")
	waitFor(s.t, desk, "the field of the name", "document.querySelector('dialog[open] input') === document.activeElement")
	s.types(desk, "counter")
	s.keys(desk, "Enter")
	waitFor(s.t, desk, "the name", "document.querySelector('#lines').textContent.includes('counter')")
	s.keys(desk, "ArrowDown")
	s.shows(scene, "the first answer again", after("e4 e5 f4 exf4"))
	s.keys(desk, "z", "z")
	waitFor(s.t, desk, "one branch", "document.querySelectorAll('#lines .branch').length === 1")
}

// taken takes the desk off the air and goes back to the live game.
func (s *deskShow) taken(desk, scene context.Context) {
	s.t.Helper()
	live := placementOf(s.st.relay.Show().Boards[0].FEN)
	s.keys(desk, "o")
	s.shows(scene, "the live board again", live)
	s.keys(desk, "End")
	s.shows(desk, "the live board at the desk", live)
}

// TestDeskPromotes: a pawn that arrives asks what it becomes; a knight is shown.
func TestDeskPromotes(t *testing.T) {
	ctx := browser(t)
	s := startDesk(t, "e4 d5 exd5 c6 dxc6 Nf6 cxb7 Nbd7")
	visit(t, ctx, "about:blank")
	desk := s.desk(ctx, "Runa")
	s.drag(desk, "b7", "a8")
	waitFor(t, desk, "the choice", "document.querySelectorAll('dialog[open] .man-choice').length === 4")
	s.keys(desk, "n")
	s.shows(desk, "a knight on a8", "N1bqkb1r/p2npppp/5n2/8/8/8/PPPP1PPP/RNBQKBNR")
}

// TestDeskComesBack: marks and side lines survive loading the page again, and the relay's
// going away in the middle; what was on the air is on the air again.
func TestDeskComesBack(t *testing.T) {
	ctx := browser(t)
	s := startDesk(t, "e4 e5")
	visit(t, ctx, "about:blank")
	desk, scene := s.desk(ctx, "Runa"), s.tab(ctx, "/scene/board?motion=off")
	s.drag(desk, "f2", "f4")
	s.shows(desk, "the side line", after("e4 e5 f4"))
	evaluate[bool](t, desk, "(document.querySelector('[data-square=e5]').focus(), true)")
	s.keys(desk, "4", "a")
	const marked = "[...document.querySelectorAll('#board path')].some((p) => p.closest('[data-kind=weak], .weak') !== null)"
	waitShow(t, s.st, func(s *relay.Show) bool { return len(s.Desk.Marks) == 1 && s.Desk.Shown != nil })
	waitFor(t, desk, "the mark", marked)
	page(t, desk, "loading again", chromedp.Reload())
	waitFor(t, desk, "the mark again", marked)
	s.shows(desk, "the side line again", after("e4 e5 f4"))
	s.stop()
	waitFor(t, desk, "the page to notice", "document.body.dataset.line === 'lost'")
	s.start()
	waitFor(t, desk, "the line back", "document.body.dataset.line !== 'lost'")
	s.shows(scene, "the side line on the air", after("e4 e5 f4"))
	waitShow(t, s.st, func(s *relay.Show) bool { return len(s.Boards) == 2 && len(s.Desk.Marks) == 1 && s.Desk.Lead == "Runa" })
	s.drag(desk, "d7", "d6")
	s.shows(scene, "the next move of it", after("e4 e5 f4 d6"))
}

// TestTwoDesks: both see the same; who does not lead is told, asks, and is handed the lead.
func TestTwoDesks(t *testing.T) {
	ctx := browser(t)
	s := startDesk(t, "e4 e5 Nf3")
	visit(t, ctx, "about:blank")
	runa, odo := s.desk(ctx, "Runa"), s.desk(ctx, "Odo")
	s.keys(runa, "ArrowLeft")
	s.shows(odo, "what Runa sees", after("e4 e5"))
	waitFor(t, odo, "who leads", "document.querySelector('#lead').textContent.includes('Runa leads')")
	s.keys(odo, "ArrowRight")
	waitFor(t, odo, "the reason", "document.querySelector('#notice').textContent.includes('Runa leads')")
	s.shows(runa, "nothing of it", after("e4 e5"))
	s.keys(odo, "L")
	waitFor(t, runa, "the question", "document.querySelector('#lead').textContent.includes('Odo asks')")
	s.keys(runa, "u")
	waitFor(t, odo, "the lead", "document.querySelector('#lead').textContent.startsWith('You lead')")
	s.keys(odo, "ArrowRight")
	s.shows(runa, "what Odo did", after("e4 e5 Nf3"))
}

// TestDeskAsks: a challenge from its question to the answer, with a live move in between that no
// page for viewers shows.
func TestDeskAsks(t *testing.T) {
	ctx := browser(t)
	s := startDesk(t, "e4 e5")
	visit(t, ctx, "about:blank")
	desk, scene, board := s.desk(ctx, "Runa"), s.tab(ctx, "/scene/challenge?motion=off"), s.tab(ctx, "/scene/board?motion=off")
	s.shows(board, "the live board", after("e4 e5"))
	s.keys(desk, "c")
	waitFor(t, desk, "the form", "document.activeElement?.id === 'ask-text'")
	s.types(desk, "What?")
	s.tabTo(desk, "#challenge button[type=submit]")
	s.keys(desk, "Enter")
	waitShow(t, s.st, func(s *relay.Show) bool { return s.Desk.Challenge != nil && s.Desk.Challenge.Question == "What?" })
	evaluate[bool](t, desk, "(document.activeElement.blur(), true)")
	s.keys(desk, "C")
	s.shows(scene, "the question's position", after("e4 e5"))
	waitFor(t, scene, "the question", "document.body.textContent.includes('What?')")
	s.goOn("Nf3")
	s.shows(desk, "the live move at the desk", after("e4 e5 Nf3"))
	for _, p := range []context.Context{scene, board} {
		if text := evaluate[string](t, p, "document.querySelector('[data-fen]').dataset.fen + document.body.textContent"); !strings.HasPrefix(text, after("e4 e5")) || strings.Contains(text, "f3") {
			t.Errorf("viewers see %.300q", text)
		}
	}
	s.keys(desk, "r")
	s.shows(scene, "the answer", after("e4 e5 Nf3"))
	s.shows(board, "the answer on the board", after("e4 e5 Nf3"))
	s.keys(desk, "e")
	waitFor(t, scene, "nothing any more", "document.querySelector('#stage').dataset.state === 'none'")
}
