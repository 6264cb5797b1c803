package main

import (
	"context"
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
	url := pagesOf(t, shownGame{Game: relaytest.Game{Control: "3600+30", Moves: "e4 e5", Clocks: []string{"0:59:50", "0:59:40"}}})
	tapped(t, ctx, url+"/scene/board")
	waitFor(t, ctx, "the board", "document.querySelector('.clock[data-text]')")
	evaluate[bool](t, ctx, `(() => {
		const line = new WebSocket(location.origin.replace('http', 'ws') + '/live?page=scene/board');
		line.onmessage = (m) => { const f = JSON.parse(m.data); if (f.type === 'board') { window.template = f; line.close(); } };
		return true;
	})()`)
	waitFor(t, ctx, "a board to copy", "window.template !== undefined")
	evaluate[bool](t, ctx, `(() => {
		const hear = window.ownLine.onmessage;
		window.ownLine.onmessage = (m) => m.data.includes('"pong"') && hear(m); // its time goes on
		window.say = (frame) => hear({ data: JSON.stringify(frame) });
		return true;
	})()`)
	script, err := os.ReadFile("../../static/test/updates.mjs")
	if err != nil {
		t.Fatal(err)
	}
	evaluate[chromedp.Void](t, ctx, string(script))
}
