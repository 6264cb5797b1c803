package main

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// deskShow is a show of two games that is led from desks.
type deskShow struct {
	*keptShow
	games []relaytest.Game
}

func startDesk(t *testing.T, moves string) *deskShow {
	t.Helper()
	games := []relaytest.Game{
		{White: "Orsolic, Dana", Black: "Pellinen, Timo", Control: "600+5", Moves: moves},
		{White: "Quaas, Birte", Black: "Rimaru, Sorin", Control: "600+5", Moves: "d4 d5"},
	}
	s := &deskShow{keptShow: startKeptOf(t, games...), games: games}
	waitShow(t, s.st, func(s *relay.Show) bool { return len(s.Boards) == 2 && s.Desk.Place.Board == 1 })
	return s
}

// goOn lets the first game go on, and waits until the show has it.
func (s *deskShow) goOn(moves string) {
	s.t.Helper()
	s.games[0].Moves += " " + moves
	s.tell(s.games...)
	plies := len(strings.Fields(s.games[0].Moves))
	waitShow(s.t, s.st, func(s *relay.Show) bool { return len(s.Boards[0].Plies) == plies })
}

// tab opens a page in a browser of its own.
func (s *deskShow) tab(ctx context.Context, path string) context.Context {
	s.t.Helper()
	ctx, cancel := chromedp.NewContext(ctx, chromedp.WithNewBrowserContext())
	s.t.Cleanup(cancel)
	watchConsole(s.t, ctx)
	visit(s.t, ctx, "http://"+s.addr+path)
	waitFor(s.t, ctx, "the page", "document.readyState === 'complete'")
	return ctx
}

// desk opens a desk and gives a name there.
func (s *deskShow) desk(ctx context.Context, name string) context.Context {
	s.t.Helper()
	ctx = s.tab(ctx, "/desk")
	waitFor(s.t, ctx, "the desk's board", "document.querySelectorAll('#board .man').length > 0 && document.body.dataset.line !== 'lost'")
	waitFor(s.t, ctx, "the table of actions", "document.querySelector('#air-action .air-word').textContent !== ''")
	evaluate[bool](s.t, ctx, `(document.querySelector('#who-name').value = '`+name+`', document.querySelector('#who').requestSubmit(), true)`)
	return ctx
}

// drag takes a man from one square to another with the mouse.
func (s *deskShow) drag(ctx context.Context, from, to string) {
	s.t.Helper()
	x, y := s.middle(ctx, from)
	toX, toY := s.middle(ctx, to)
	page(s.t, ctx, "press", chromedp.MouseEvent(input.DispatchMouseEventTypeMousePressed, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	page(s.t, ctx, "move", chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, (x+toX)/2, (y+toY)/2, chromedp.ButtonLeft))
	page(s.t, ctx, "move", chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, toX, toY, chromedp.ButtonLeft))
	page(s.t, ctx, "release", chromedp.MouseEvent(input.DispatchMouseEventTypeMouseReleased, toX, toY, chromedp.ButtonLeft, chromedp.ClickCount(1)))
}

func (s *deskShow) middle(ctx context.Context, square string) (x, y float64) {
	s.t.Helper()
	at := evaluate[[]float64](s.t, ctx, `(() => { const b = document.querySelector('[data-square=`+square+`]').getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; })()`)
	return at[0], at[1]
}

// namedKeys are keys that make no sign.
var namedKeys = map[string]string{
	"ArrowLeft": kb.ArrowLeft, "ArrowRight": kb.ArrowRight, "ArrowUp": kb.ArrowUp, "ArrowDown": kb.ArrowDown,
	"Home": kb.Home, "End": kb.End, "Enter": kb.Enter, "Tab": kb.Tab, "Escape": kb.Escape,
}

// keys presses keys, one after the other.
func (s *deskShow) keys(ctx context.Context, keys ...string) {
	s.t.Helper()
	for _, key := range keys {
		sign, named := namedKeys[key]
		if !named {
			sign = key
		}
		page(s.t, ctx, "key "+key, pressed([]rune(sign)[0]))
	}
}

// pressed is a key as a keyboard sends it: its sign comes with the press, so that a page
// that has taken the press for itself does not get the sign besides.
func pressed(key rune) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		var down, up *input.DispatchKeyEventParams
		for _, e := range kb.Encode(key) {
			switch e.Type {
			case kb.KeyDown:
				down = e
			case kb.KeyChar:
				down.Text, down.UnmodifiedText = e.Text, e.UnmodifiedText
			case kb.KeyUp:
				up = e
			}
		}
		for _, e := range []*input.DispatchKeyEventParams{down, up} {
			if _, err := cdp.Call(ctx, target, input.DispatchKeyEvent, *e); err != nil {
				return err
			}
		}
		return nil
	})
}

// types writes into the field that has the focus.
func (s *deskShow) types(ctx context.Context, text string) {
	s.t.Helper()
	s.keys(ctx, strings.Split(text, "")...)
}

// tabTo goes on with the Tab key until what a selector names has the focus.
func (s *deskShow) tabTo(ctx context.Context, selector string) {
	s.t.Helper()
	for range 80 {
		if evaluate[bool](s.t, ctx, "document.activeElement?.matches('"+selector+"') ?? false") {
			return
		}
		s.keys(ctx, "Tab")
	}
	s.t.Fatalf("the Tab key does not come to %s", selector)
}

// shows waits until a page has drawn a position.
func (s *deskShow) shows(ctx context.Context, what, placement string) {
	s.t.Helper()
	waitFor(s.t, ctx, what, "document.querySelector('[data-fen]')?.dataset.fen === '"+placement+"'")
}

// Positions by the moves that lead to them.
var deskPositions = map[string]string{
	"e4 e5":             "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR",
	"e4 e5 Nf3":         "rnbqkbnr/pppp1ppp/8/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R",
	"e4 e5 Nf3 Nc6":     "r1bqkbnr/pppp1ppp/2n5/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R",
	"e4 e5 f4":          "rnbqkbnr/pppp1ppp/8/4p3/4PP2/8/PPPP2PP/RNBQKBNR",
	"e4 e5 f4 exf4":     "rnbqkbnr/pppp1ppp/8/8/4Pp2/8/PPPP2PP/RNBQKBNR",
	"e4 e5 f4 d5":       "rnbqkbnr/ppp2ppp/8/3pp3/4PP2/8/PPPP2PP/RNBQKBNR",
	"e4 e5 f4 d6":       "rnbqkbnr/ppp2ppp/3p4/4p3/4PP2/8/PPPP2PP/RNBQKBNR",
	"e4 e5 Nf3 Nc6 Bb5": "r1bqkbnr/pppp1ppp/2n5/1B2p3/4P3/5N2/PPPP1PPP/RNBQK2R",
}

func after(moves string) string {
	placement, ok := deskPositions[moves]
	if !ok {
		panic(fmt.Sprintf("no position for %q", moves))
	}
	return placement
}
