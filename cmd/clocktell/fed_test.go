package main

import (
	"context"
	"fmt"
	"os"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp"

	"clocktell/relay/relaytest"
)

// result is a command of the browser as an action, with its answer.
func result[P, R any](c cdp.Command[P, R], params P) chromedp.Action[R] {
	return func(ctx context.Context, target *chromedp.Target) (R, error) { return cdp.Call(ctx, target, c, params) }
}

// fed opens the board scene of a game under way with static/test/updates.mjs in it. The
// relay's own frames come no more.
func fed(t *testing.T, ctx context.Context) {
	t.Helper()
	fedPage(t, ctx, "/scene/board", "scene/board", 1)
}

// fedPage does so with any page that shows so many boards; kind is its name on the line.
func fedPage(t *testing.T, ctx context.Context, path, kind string, boards int) {
	t.Helper()
	games := make([]shownGame, boards)
	for i := range games {
		games[i] = shownGame{Game: relaytest.Game{Control: "3600+30", Moves: "e4 e5", Clocks: []string{"0:59:50", "0:59:40"}}}
	}
	tapped(t, ctx, pagesOf(t, games...)+path)
	evaluate[bool](t, ctx, fmt.Sprintf(`(() => {
		const [line, boards] = [new WebSocket(location.origin.replace('http', 'ws') + '/live?page=panel'), new Map()];
		line.onmessage = (m) => {
			const f = JSON.parse(m.data);
			if (f.type !== 'board') return;
			boards.set(f.board, f);
			if (boards.size < %d) return;
			line.close();
			window.templates = [...boards.values()];
		};
		return true;
	})()`, boards))
	waitFor(t, ctx, "boards to copy", "window.templates !== undefined")
	evaluate[bool](t, ctx, fmt.Sprintf(`(() => {
		const hear = window.ownLine.onmessage;
		window.ownLine.onmessage = (m) => m.data.includes('"pong"') && hear(m); // its time goes on
		window.say = (frame) => hear({ data: JSON.stringify(frame) });
		window.played = { push() {} }; // the tap's own list of animations would grow
		window.surface = %t;
		return true;
	})()`, kind == "panel" || kind == "health"))
	script, err := os.ReadFile("../../static/test/updates.mjs")
	if err != nil {
		t.Fatal(err)
	}
	evaluate[chromedp.Void](t, ctx, string(script))
}
